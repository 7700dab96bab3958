using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Settings;
using Goodsheet.App;
using Goodsheet.App.Buying;
using Goodsheet.Room.Buying;

namespace Goodsheet.Cli.Buying;

/// <summary><c>forward</c>: runs the room through possible years, as it buys now and as it might.</summary>
public static class ForwardVerb
{
    private static readonly Option<string> Days = new("--order-days") { Description = "The days orders go out, such as mon,thu.", DefaultValueFactory = _ => "mon,tue,wed,thu,fri,sat,sun" };
    private static readonly Option<double> AtOnce = new("--at-once") { Description = "Of what is wanted, the per cent the shelf is to give at once.", DefaultValueFactory = _ => 98 };
    private static readonly Option<string?> Outage = new("--outage") { Description = "A supplier that stands still: its code and for how many days, such as corvane:30." };
    private static readonly Option<string?> Price = new("--price") { Description = "A supplier whose prices change: its code and per cent, such as corvane:12." };
    private static readonly Option<int> Years = new("--years") { Description = "Possible years tried.", DefaultValueFactory = _ => RunAhead.UsualRuns };
    private static readonly Option<int> Seed = new("--seed") { Description = "The same seed gives the same years.", DefaultValueFactory = _ => 1 };

    public static Command Create()
    {
        var command = new Command("forward", "Runs the room forward: stock, waits, outdated paper and money, as it buys now and as it might.")
        {
            RoomOption.Room, RoomOption.Postgres, Days, AtOnce, Outage, Price, Years, Seed, Answer.Json,
        };
        command.SetAction(async (line, cancel) =>
        {
            if (Week(line.GetValue(Days)!) is not { } week
                || !Named(line.GetValue(Outage), out var still, out var stillDays) || !Named(line.GetValue(Price), out var dearer, out var perCent))
            {
                await line.InvocationConfiguration.Error.WriteLineAsync("Days are written mon,thu; a supplier and a number as corvane:30.");
                return 1; // wrong use
            }

            var (store, _) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            var outcome = await new RunAhead(store, await store.ClockAsync(cancel)).RunAsync(
                new(week, line.GetValue(AtOnce) / 100, still, (int)Math.Clamp(stillDays, -1, int.MaxValue / 2), dearer, perCent, line.GetValue(Years), line.GetValue(Seed)), cancel);
            return await line.GiveAsync(outcome, d => new { d.Present, d.Proposed, d.Difference, d.Items, d.Asked.Runs, d.Asked.Seed }, Says);
        });
        return command;
    }

    private static string Says(RunAhead.Done done) => string.Join('\n', [
        string.Create(CultureInfo.CurrentCulture, $"{done.Asked.Runs} possible years; in brackets between what nine of ten lay."),
        Row(done, "Given at once", f => f.FillRate, v => $"{100 * v:0.0} %"),
        Row(done, "Waits, days x items a year", f => f.Waits, v => $"{v:0.#}"),
        Row(done, "Stock on the shelf", f => f.StockValue, v => $"{v:0.00}"),
        Row(done, "Out of date a year", f => f.Outdated, v => $"{v:0.00}"),
        Row(done, "Orders a year", f => f.Orders, v => $"{v:0.#}"),
        Row(done, "Carriage a year", f => f.Carriage, v => $"{v:0.00}"),
        Row(done, "Paper a year", f => f.Paper, v => $"{v:0.00}"),
        .. done.WithoutPrice.Count > 0 ? [$"Without a price, so in no sum of money: {string.Join(", ", done.WithoutPrice)}."] : Array.Empty<string>(),
    ]);

    private static string Row(RunAhead.Done done, string name, Func<Figures, RunFigure> read, Func<double, string> say)
    {
        string Figure(Figures f) => $"{say(read(f).Mean)} ({say(read(f).Low)} to {say(read(f).High)})";
        return $"{name}: now {Figure(done.Present)}, then {Figure(done.Proposed)}, difference {Figure(done.Difference)}";
    }

    private static WorkingWeek? Week(string text)
    {
        var days = new List<DayOfWeek>();
        foreach (var name in text.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var day = Enum.GetValues<DayOfWeek>().Where(d => d.ToString().StartsWith(name, StringComparison.OrdinalIgnoreCase)).ToList();
            if (name.Length < 2 || day.Count != 1)
            {
                return null;
            }

            days.Add(day[0]);
        }

        return WorkingWeek.Of(days);
    }

    /// <summary>"corvane:30"; nothing given is nothing named.</summary>
    private static bool Named(string? text, out SupplierCode? supplier, out double number)
    {
        (supplier, number) = (null, 0);
        if (text is null)
        {
            return true;
        }

        var at = text.LastIndexOf(':');
        if (at < 1 || !double.TryParse(text[(at + 1)..], NumberStyles.Float, CultureInfo.InvariantCulture, out number) || !double.IsFinite(number))
        {
            return false;
        }

        supplier = new(text[..at]);
        return true;
    }
}

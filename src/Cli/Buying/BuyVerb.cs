using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Settings;
using Goodsheet.App;
using Goodsheet.App.Buying;
using Goodsheet.App.Documents;
using Goodsheet.Room;

namespace Goodsheet.Cli.Buying;

/// <summary><c>buy</c>: what to order before which cut-off, an order as file or text, a supplier's price list, the calendar.</summary>
public static class BuyVerb
{
    private static readonly Argument<int> Number = new("order") { Description = "Its number, such as 104." };
    private static readonly Option<FileInfo?> Pdf = new("--pdf") { Description = "Write it as PDF." };
    private static readonly Option<FileInfo?> Csv = new("--csv") { Description = "Write it as CSV." };
    private static readonly Argument<string> Supplier = new("supplier") { Description = "Its code, such as corvane-paper." };
    private static readonly Argument<FileInfo> List = new("list") { Description = $"CSV with the heading {ImportPrices.Heading}." };
    private static readonly Option<bool> Look = new("--look") { Description = "Say line by line what would be taken in, and take nothing in." };
    private static readonly Option<double> Keeping = new("--keeping") { Description = "What a year of keeping paper costs, in per cent of its worth.", DefaultValueFactory = _ => 10 };
    private static readonly Option<double> OrderMinutes = new("--order-minutes") { Description = "Writing one order and taking it in.", DefaultValueFactory = _ => 20 };
    private static readonly Option<double> LineMinutes = new("--line-minutes") { Description = "Each line of it.", DefaultValueFactory = _ => 5 };
    private static readonly Argument<FileInfo> Calendar = new("file") { Description = "Where the calendar file goes." };

    public static Command Create() => new("buy", "What to order now and before when; orders to suppliers as files.") { Now(), Order(), Prices(), Rhythm(), CalendarFile() };

    private static Command Now()
    {
        var command = new Command("now", "What should be ordered, by whose cut-off comes first, and why.") { RoomOption.Room, RoomOption.Postgres, Answer.Json };
        command.SetAction(async (line, cancel) =>
        {
            var (store, _) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            var clock = await store.ClockAsync(cancel);
            Outcome<ShowBuying.Page> page = await new ShowBuying(store, clock).RunAsync(cancel);
            return await line.GiveAsync(
                page, p => p.Suppliers.Where(s => s.Lines > 0).Select(s => new { s.Sending.Supplier.Code, s.Promise.CutOff, s.Promise.ComesOn, s.Promise.ThenComesOn, s.ToOrder, s.Pieces }), p => Says(p, clock.LocalTimeZone));
        });
        return command;
    }

    private static string Says(ShowBuying.Page page, TimeZoneInfo zone)
    {
        var lines = new List<string>();
        foreach (var s in page.Suppliers.Where(s => s.Lines > 0))
        {
            lines.Add(string.Create(CultureInfo.CurrentCulture,
                $"{s.Sending.Supplier.Name}: send it before {TimeZoneInfo.ConvertTime(s.Promise.CutOff, zone):dddd d MMMM HH:mm} and it comes on {s.Promise.ComesOn:dddd d MMMM}, after that on {s.Promise.ThenComesOn:dddd d MMMM}."));
            lines.AddRange(s.ToOrder.Select(l => $"  {l.Packs} x {l.Paper} {l.Item.Format}: {l.Why}"));
            lines.AddRange(s.Pieces.Select(p => $"  {p.Pieces} x {p.Name}: {p.Why}"));
        }

        return lines.Count == 0 ? "Nothing has to be ordered now." : string.Join('\n', lines);
    }

    private static Command Order()
    {
        var command = new Command("order", "An order to a supplier as text to send, as PDF or as CSV.") { Number, Pdf, Csv, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        command.SetAction(async (line, cancel) =>
        {
            var (store, _) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            var number = line.GetValue(Number);
            var clock = await store.ClockAsync(cancel);
            var page = await new ShowPurchase(store, clock).RunAsync(number, cancel);
            if (page is not null && line.GetValue(Csv) is { } csv)
            {
                await File.WriteAllTextAsync(csv.FullName, PurchaseText.Csv(page), cancel);
            }

            if (page is not null && line.GetValue(Pdf) is { } pdf)
            {
                await File.WriteAllBytesAsync(pdf.FullName, PurchasePages.Draw(page, clock.LocalTimeZone).Pdf, cancel);
            }

            return await line.GiveAsync(
                page is null ? (Outcome<ShowPurchase.Page>)new NoSuchPurchase(number) : page,
                p => new { p.Order.Number, p.Order.Supplier, State = p.Order.State.ToString(), Lines = p.Lines.Select(l => l.Of), Pieces = p.Pieces.Select(l => l.Of), p.Sum, p.Carriage }, p => PurchaseText.Mail(p).TrimEnd());
        });
        return command;
    }

    private static Command Prices()
    {
        var command = new Command("prices", "Takes a supplier's price list in: all of it, or none and a report of every line that is wrong.") { Supplier, List, Look, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        command.SetAction(async (line, cancel) =>
        {
            var file = line.GetValue(List)!;
            if (!file.Exists)
            {
                await line.InvocationConfiguration.Error.WriteLineAsync($"There is no file {file.FullName}.");
                return 1; // wrong use
            }

            var (store, _) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            var done = await new ImportPrices(store).RunAsync(new(new(line.GetValue(Supplier)!), await File.ReadAllTextAsync(file.FullName, cancel), line.GetValue(Look)), cancel);
            var exit = await line.GiveAsync(done, d => d, d => string.Join('\n', [
                .. d.Lines.Select(l => $"line {l.Line}: {l.Says}"),
                d.Wrong > 0 ? $"{d.Wrong} lines are wrong. Nothing was taken in." : d.WasDryRun ? "Nothing was taken in." : "It is all in."]));
            return exit == Exit.Done && done.Value!.Wrong > 0 ? Exit.Refused : exit;
        });
        return command;
    }

    private static Command Rhythm()
    {
        var command = new Command("rhythm", "How often it pays to order from a supplier, and which items each how manieth time.") { Supplier, Keeping, OrderMinutes, LineMinutes, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        command.SetAction(async (line, cancel) =>
        {
            var (store, _) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            var done = await new ShowRhythm(store, await store.ClockAsync(cancel)).RunAsync(
                new(new(line.GetValue(Supplier)!), line.GetValue(Keeping), line.GetValue(OrderMinutes), line.GetValue(LineMinutes)), cancel);
            return await line.GiveAsync(done, d => new { d.Rhythm, d.Lines }, d => string.Join('\n', [
                string.Create(CultureInfo.CurrentCulture, $"Every {Math.Max(1, d.Rhythm.EveryDays):0} days, about {d.Rhythm.Basket:0.00} each; carriage {d.Rhythm.CarriagePaid:0.00}; {d.Rhythm.TiedUp:0.00} tied up; costs {d.Rhythm.CostAYear:0.00} a year."),
                .. d.Lines.Select((l, i) => string.Create(CultureInfo.CurrentCulture, $"  {l.Paper} {l.Item.Format}: on every {d.Rhythm.Multiples[i]}. order, {d.PacksOf(i):0.#} packs"))]));
        });
        return command;
    }

    private static Command CalendarFile()
    {
        var command = new Command("calendar", "Cut-offs and deliveries that are due, as a calendar file.") { Calendar, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        command.SetAction(async (line, cancel) =>
        {
            var (store, _) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            var text = await new BuyingCalendar(store, await store.ClockAsync(cancel)).RunAsync(cancel);
            await File.WriteAllTextAsync(line.GetValue(Calendar)!.FullName, text, cancel);
            Outcome<Written> written = new Written(line.GetValue(Calendar)!.FullName, text.Split("BEGIN:VEVENT").Length - 1);
            return await line.GiveAsync(written, w => w, w => $"{w.Entries} {(w.Entries == 1 ? "entry" : "entries")} in {w.File}.");
        });
        return command;
    }

    private sealed record Written(string File, int Entries);
}

using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Settings;
using Goodsheet.App;
using Goodsheet.App.Money;
using Goodsheet.Room;

namespace Goodsheet.Cli.Money;

/// <summary><c>stock</c>: the money that lies on the shelf, and what a month used.</summary>
public static class StockVerb
{
    private static readonly Option<string?> Month = new("--month") { Description = "Which month, as 2026-03; the one before this if nothing is said." };

    public static Command Create()
    {
        var value = new Command("value", "What lies in the room is worth, first in first out and by moving average.") { RoomOption.Room, RoomOption.Postgres, Answer.Json };
        value.SetAction(async (line, cancel) =>
        {
            var show = await OpenAsync(line, cancel);
            Outcome<ShowStockMoney.Page> page = await show.RunAsync(cancel);
            return await line.GiveAsync(page, p => p, p => string.Join('\n',
            [
                .. p.Items.Select(i => string.Create(CultureInfo.CurrentCulture, $"{i.Paper} {i.Item.Format}: {i.Value.OnHand} {(i.IsRoll ? "mm" : "sheets")}, {(i.Value.Fifo is { } fifo ? $"{fifo:0.00}, by average {i.Value.Average:0.00}" : "no price")}")),
                string.Create(CultureInfo.CurrentCulture, $"First in first out {p.Fifo:0.00} {p.Currency}, by moving average {p.Average:0.00} {p.Currency}"),
            ]));
        });
        var usage = new Command("usage", "A month's use of each item, as CSV.") { Month, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        usage.SetAction(async (line, cancel) => await line.GiveAsync(await UsageAsync(line, cancel), csv => csv, csv => csv.Text.TrimEnd()));
        return new("stock", "Paper on the shelf as money.") { value, usage };
    }

    private static async Task<Outcome<Csv>> UsageAsync(ParseResult line, CancellationToken cancel)
    {
        var text = line.GetValue(Month);
        var month = TimeProvider.System.Today().AddMonths(-1);
        return text is not null && !DateOnly.TryParseExact(text, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out month)
            ? new NoMonth(text)
            : new Csv(await (await OpenAsync(line, cancel)).UsageAsync(month, cancel));
    }

    private static async Task<ShowStockMoney> OpenAsync(ParseResult line, CancellationToken cancel)
    {
        var (store, _) = line.OpenRoom();
        await store.MigrateAsync(cancel);
        return new(store, await store.ClockAsync(cancel));
    }

    private sealed record Csv(string Text);

    private sealed record NoMonth(string Text) : Refusal($"“{Text}” is no month. Write it as 2026-03.");
}

using System.CommandLine;
using System.Globalization;
using Goodsheet.App;
using Goodsheet.App.Money;
using Goodsheet.App.Orders;
using Goodsheet.App.Settings;
using Goodsheet.Room;
using Goodsheet.Room.Orders;

namespace Goodsheet.Cli.Buying;

/// <summary><c>ways-out</c>: an order is promised and its paper does not suffice: cut, another paper, another supplier, or tell the client.</summary>
public static class WaysOutVerb
{
    private static readonly Argument<int> Number = new("order") { Description = "The client's order, such as 1040." };

    public static Command Create()
    {
        var command = new Command("ways-out", "What can be done when an order's paper does not suffice, each way with its cost and time.") { Number, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        command.SetAction(async (line, cancel) =>
        {
            var (store, files) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            var clock = await store.ClockAsync(cancel);
            var page = await new FindWaysOut(store, files, new ScreenCopies(files), clock).RunAsync(line.GetValue(Number), cancel);
            return await line.GiveAsync(
                page is null ? (Outcome<FindWaysOut.Page>)new QuoteOrder.NoSuchOrder(line.GetValue(Number)) : page,
                p => p.Prints.Select(w => new { w.Print.Title, Paper = w.Paper.Name, Format = w.Format?.Code.Value, w.Wants, w.Has, w.Ways }), p => Says(p, clock.LocalTimeZone));
        });
        return command;
    }

    private static string Says(FindWaysOut.Page page, TimeZoneInfo zone) => page.Prints.Count == 0
        ? "There is paper for all of it."
        : string.Join('\n', page.Prints.SelectMany(p => (string[])[$"{p.Print.Title} on {p.Paper.Name}:", .. p.Ways.Select(w => Way(w, page, zone))]));

    private static string Way(WayOut way, FindWaysOut.Page page, TimeZoneInfo zone)
    {
        var when = way.WhyNot is { } no ? $"no: {no}"
            : way.Ready is { } ready ? $"ready {TimeZoneInfo.ConvertTime(ready, zone).ToString("ddd d MMM HH:mm", CultureInfo.CurrentCulture)}{(way.InTime(page.Order.Promised) ? ", in time" : ", too late for the promise")}" : "no day known";
        var cost = way.Cost is { } sum ? string.Create(CultureInfo.CurrentCulture, $"{sum:0.00} {page.Currency}") : "cost not known";
        return $"  {way.What} ({when}; {cost}): {way.How} {way.Restock}".TrimEnd();
    }
}

using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Buying;

/// <summary>Cut-offs of what is to be ordered and deliveries that are due, as a calendar file (RFC 5545).</summary>
public sealed class BuyingCalendar(RoomStore room, TimeProvider clock)
{
    private const int LongestLine = 75; // octets, RFC 5545 3.1
    private const int MinutesBefore = 60;

    public async Task<string> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var advice = await db.AdviceAsync(clock, cancel);
        var due = await db.Purchases.AsNoTracking()
            .Where(p => p.State == PurchaseState.Sent || p.State == PurchaseState.PartDelivered).OrderBy(p => p.Number).ToListAsync(cancel);
        var text = new StringBuilder();
        Line(text, "BEGIN:VCALENDAR");
        Line(text, "VERSION:2.0");
        Line(text, "PRODID:-//Goodsheet//Buying//EN");
        var wanted = advice.Lines.Where(l => l.Reorder.Packs > 0).Select(l => (l.Sending, What: $"{l.Need.Paper} {l.Need.Item.Format}: {l.Reorder.Packs}"))
            .Concat(advice.Pieces.Where(p => p.Pieces > 0).Select(p => (p.Sending, What: $"{p.Stock.Consumable.Name}: {p.Pieces}")));
        foreach (var low in wanted.GroupBy(l => l.Sending.Supplier.Code))
        {
            var (promise, name) = (low.First().Sending.Promise(advice.Now), low.First().Sending.Supplier.Name);
            var start = Utc(promise.CutOff.AddMinutes(-MinutesBefore));
            Event(text, $"cut-off-{low.Key}-{promise.CutOffDay:yyyyMMdd}", advice.Now, [$"DTSTART:{start}", $"DTEND:{Utc(promise.CutOff)}"],
                $"Order from {name}",
                $"Sent before {Utc(promise.CutOff)} it comes on {promise.ComesOn:yyyy-MM-dd}; after that on {promise.ThenComesOn:yyyy-MM-dd}. "
                + string.Join(", ", low.Select(l => l.What)));
        }

        foreach (var order in due)
        {
            var day = order.PromisedOn!.Value;
            Event(text, $"delivery-{order.Number}", advice.Now,
                [$"DTSTART;VALUE=DATE:{day:yyyyMMdd}", $"DTEND;VALUE=DATE:{day.AddDays(1):yyyyMMdd}"],
                $"Delivery from {advice.Sendings[order.Supplier].Supplier.Name}", $"Order {order.Number}");
        }

        Line(text, "END:VCALENDAR");
        return text.ToString();
    }

    private static void Event(StringBuilder text, string id, DateTimeOffset now, IEnumerable<string> when, string summary, string description)
    {
        Line(text, "BEGIN:VEVENT");
        Line(text, $"UID:{id}@goodsheet");
        Line(text, $"DTSTAMP:{Utc(now)}");
        foreach (var line in when)
        {
            Line(text, line);
        }

        Line(text, $"SUMMARY:{Escaped(summary)}");
        Line(text, $"DESCRIPTION:{Escaped(description)}");
        Line(text, "TRANSP:TRANSPARENT");
        Line(text, "END:VEVENT");
    }

    private static string Utc(DateTimeOffset at) => at.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);

    private static string Escaped(string text) => text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace(";", "\\;", StringComparison.Ordinal)
        .Replace(",", "\\,", StringComparison.Ordinal).Replace("\r", "", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);

    /// <summary>Ends in CR LF; folded where it is longer than 75 octets, never within a character.</summary>
    private static void Line(StringBuilder text, string line)
    {
        var octets = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > LongestLine)
            {
                text.Append("\r\n ");
                octets = 1;
            }

            text.Append(rune);
            octets += rune.Utf8SequenceLength;
        }

        text.Append("\r\n");
    }
}

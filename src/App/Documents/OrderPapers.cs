using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PdfSharp.Pdf;
using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Documents;

/// <summary>Makes the papers that go to a client with an order: the quotation that was kept, and the delivery note that is the packing list, too.</summary>
public sealed class OrderPapers(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Document>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        if (await db.Orders.AsNoTracking().SingleOrDefaultAsync(o => o.Number == request.Order, cancel) is not { } order)
        {
            return new NoSuchOrder(request.Order);
        }

        var client = await db.Clients.AsNoTracking().SingleAsync(c => c.Number == order.Client, cancel);
        var name = (await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel))?.Name ?? "";
        var today = clock.GetLocalNow();
        if (request.Kind is Kind.Quotation)
        {
            var text = await db.OrderQuotes.AsNoTracking().Where(q => q.Order == order.Number).OrderByDescending(q => q.Number).Select(q => q.Text).FirstOrDefaultAsync(cancel);
            return text is null ? new NoQuotation(order.Number) : Quotation(order, text);
        }

        var prints = await db.PrintLines.AsNoTracking().Where(l => l.Order == order.Number).OrderBy(l => l.Line).ToListAsync(cancel);
        var papers = await db.Papers.AsNoTracking().ToDictionaryAsync(p => p.Code, cancel);
        return DeliveryNote(order, client, name, prints, papers, today);
    }

    // As it was kept: each line's amount stands at the right.
    private static Document Quotation(Order order, string text)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Quotation for order {order.Number}";
        using (var flow = new Flow(document, $"Quotation for order {order.Number}", $"Quotation for order {order.Number}, continued"))
        {
            var lines = text.ReplaceLineEndings("\n").TrimEnd().Split('\n');
            flow.Leaf.Type(lines[0], Flow.Left, flow.Y, Face.Strong, 7);
            flow.Y += 13;
            foreach (var line in lines.Skip(1))
            {
                if (line.Length == 0)
                {
                    flow.Y += 5;
                    continue;
                }

                var at = line.LastIndexOf(": ", StringComparison.Ordinal);
                var (what, amount) = at > 0 ? (line[..at], line[(at + 2)..]) : (line, "");
                Row(flow, what, amount, line.StartsWith("To pay", StringComparison.Ordinal));
            }
        }

        return Document.Of(document, $"quotation-{order.Number}.pdf");
    }

    private static Document DeliveryNote(
        Order order, Client client, string room, IReadOnlyList<PrintLine> prints, Dictionary<PaperCode, Paper> papers, DateTimeOffset today)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Delivery note for order {order.Number}";
        using (var flow = new Flow(document, $"{room}, order {order.Number}, {Day(today)}", $"Delivery note for order {order.Number}, continued"))
        {
            flow.Leaf.Type("Delivery note", Flow.Left, flow.Y, Face.Strong, 7);
            flow.Y += 13;
            flow.Words($"{room}, {Day(today)}");
            flow.Words($"For {client.Name}{(order.Reference.Length > 0 ? $", your number {order.Reference}" : "")}. Order {order.Number}, {(order.Out is HandOut.Sent ? "sent" : "collected")}, packed {(order.Packed is PackedAs.Tube ? "in a tube" : "flat")}.");
            flow.Y += 3;
            flow.Rule(0.5);
            foreach (var print in prints)
            {
                Row(flow, string.Create(CultureInfo.CurrentCulture,
                    $"{print.Title}, {print.Width.Millimetres:0.#} × {print.Height.Millimetres:0.#} mm on {papers[print.Paper].Name}"), $"{print.Good} of {print.Copies}", strong: false);
            }

            flow.Rule(0.5);
            Row(flow, "Prints in this delivery", prints.Sum(p => p.Good).ToString(CultureInfo.CurrentCulture), strong: true);
            flow.Y += 4;
            flow.Words("Open it on a clean table, with clean dry hands or cotton gloves. Do not touch the printed side, and lay nothing on it. Keep the tissue until the prints are framed; frame them with an air gap under the glass, out of the sun.");
            flow.Words("Please count and look at the prints when they come, and tell us of anything that is not right.");
            flow.Room(24);
            flow.Y += 16;
            flow.Leaf.Line(Flow.Left, flow.Y, Flow.Left + 75, flow.Y);
            flow.Leaf.Line(Flow.Right - 75, flow.Y, Flow.Right, flow.Y);
            flow.Y += 2;
            flow.Leaf.Type("Packed by", Flow.Left, flow.Y, Face.Text, 3);
            flow.Leaf.Type("Received, date", Flow.Right - 75, flow.Y, Face.Text, 3);
        }

        return Document.Of(document, $"delivery-note-{order.Number}.pdf");
    }

    private static void Row(Flow flow, string what, string amount, bool strong)
    {
        const double size = 3.6, amountWidth = 42;
        var face = strong ? Face.Strong : Face.Text;
        var lines = flow.Leaf.Lines(what, amount.Length > 0 ? Flow.Width - amountWidth : Flow.Width, face, size);
        flow.Room((5 * lines.Count) + 1);
        flow.Leaf.TypeRight(amount, Flow.Right, flow.Y, face, size);
        foreach (var line in lines)
        {
            flow.Leaf.Type(line, Flow.Left, flow.Y, face, size);
            flow.Y += 5;
        }

        flow.Y += 1;
    }

    private static string Day(DateTimeOffset day) => day.ToString("d MMMM yyyy", CultureInfo.CurrentCulture);

    public enum Kind
    {
        Quotation,
        DeliveryNote,
    }

    public sealed record Request(int Order, Kind Kind);

    public sealed record NoQuotation(int Order) : Refusal($"No quotation of order {Order} is kept yet. Keep one first, then it can be sent.");
}

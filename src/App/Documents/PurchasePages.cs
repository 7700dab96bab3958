using System.Globalization;
using PdfSharp.Pdf;
using Goodsheet.App.Buying;

namespace Goodsheet.App.Documents;

/// <summary>An order to a supplier on A4: what, how many, at which price, how it is to be sent and when it is expected.</summary>
public sealed class PurchasePages
{
    private const double Number = 8, Price = 128, Sum = Flow.Right, Packs = 108, What = Flow.Left + Number;

    private readonly Flow flow;
    private readonly ShowPurchase.Page page;

    private PurchasePages(Flow flow, ShowPurchase.Page page) => (this.flow, this.page) = (flow, page);

    /// <param name="page">The order.</param>
    /// <param name="zone">Where the room is: an order bears the day it was sent there, or today's if it is not sent yet.</param>
    public static Document Draw(ShowPurchase.Page page, TimeZoneInfo zone)
    {
        var day = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(page.Order.SentAt ?? page.Now, zone).DateTime);
        using var document = new PdfDocument();
        document.Info.Title = PurchaseText.Subject(page);
        using (var flow = new Flow(document, PurchaseText.Subject(page), $"Order {page.Order.Number}, continued"))
        {
            var pages = new PurchasePages(flow, page);
            pages.Head(day);
            pages.Lines();
            pages.Foot();
        }

        return Document.Of(document, $"order-{page.Order.Number}.pdf");
    }

    private static CultureInfo Culture => CultureInfo.CurrentCulture;

    private void Head(DateOnly today)
    {
        flow.Leaf.Type("Order", Flow.Left, flow.Y, Face.Text, 3.7);
        flow.Leaf.Type(page.Order.Number.ToString(Culture), Flow.Left, flow.Y + 6, Face.Strong, 17);
        var (y, right) = (flow.Y, Flow.Right);
        foreach (var (words, face) in ((string, Face)[])[(page.Room, Face.Strong), ($"to {page.Sending.Supplier.Name}", Face.Text), (page.Sending.Supplier.Email, Face.Text)])
        {
            if (words.Length > 0)
            {
                flow.Leaf.TypeRight(words, right, y, face, 4.2);
                y += 5.6;
            }
        }

        flow.Leaf.TypeRight(today.ToString("d MMMM yyyy", Culture), right, y, Face.Text, 4.2);
        flow.Y += 26;
        flow.Rule(0.9);
    }

    private void Lines()
    {
        flow.Leaf.Type("What", What, flow.Y, Face.Text, 3.2);
        flow.Leaf.TypeRight("How many", Packs + 14, flow.Y, Face.Text, 3.2);
        flow.Leaf.TypeRight("One costs", Price + 24, flow.Y, Face.Text, 3.2);
        flow.Leaf.TypeRight("Sum", Sum, flow.Y, Face.Text, 3.2);
        flow.Y += 5;
        flow.Rule(0.2, 2);
        foreach (var line in page.Lines)
        {
            Line(line.Of.Line, line.Paper, $"{line.Of.Format}, {PurchaseText.Pack(line.Of.PackSize, line.IsRoll)}", line.Of.Packs, line.Of.Price, line.Of.Sum);
        }

        foreach (var piece in page.Pieces)
        {
            Line(piece.Of.Line, piece.Name, "single pieces", piece.Of.Pieces, piece.Of.Price, piece.Of.Sum);
        }

        flow.Rule(0.4);
    }

    private void Line(int number, string what, string how, int packs, decimal? price, decimal? sum)
    {
        var words = flow.Leaf.Lines(what, Packs - What - 6, Face.Strong, 3.8, most: 2);
        flow.Room((words.Count * 4.8) + 8);
        flow.Leaf.Type(number.ToString(Culture), Flow.Left, flow.Y, Face.Text, 3.8);
        flow.Leaf.TypeRight(packs.ToString(Culture), Packs + 14, flow.Y, Face.Strong, 3.8);
        flow.Leaf.TypeRight(price?.ToString("0.00", Culture) ?? "", Price + 24, flow.Y, Face.Text, 3.8);
        flow.Leaf.TypeRight(sum?.ToString("0.00", Culture) ?? "", Sum, flow.Y, Face.Text, 3.8);
        foreach (var line in words)
        {
            flow.Leaf.Type(line, What, flow.Y, Face.Strong, 3.8);
            flow.Y += 4.8;
        }

        flow.Leaf.TypeFitted(how, What, flow.Y, Packs - What - 6, Face.Text, 3.2, 2.4);
        flow.Y += 6.4;
    }

    private void Foot()
    {
        flow.Room(30);
        if (page.Sum is { } sum)
        {
            flow.Leaf.TypeRight($"{sum.ToString("0.00", Culture)}", Sum, flow.Y, Face.Strong, 4.6);
            flow.Leaf.Type("Together, before tax and carriage", What, flow.Y, Face.Text, 3.8);
            flow.Y += 9;
        }

        flow.Words(PurchaseText.HowSent(page), 3.8);
    }
}

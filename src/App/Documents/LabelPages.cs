using System.Globalization;
using PdfSharp.Pdf;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Documents;

/// <summary>What stands on the label of a lot.</summary>
internal sealed record LabelText(
    string Paper, string What, string Lot, string Until, string Came, string? Warning, QrCode? Code)
{
    public static LabelText Of(Lot lot, Paper paper, Format format, long left, DateOnly today, string? address)
    {
        var much = format.IsRoll ? $"{left / 1000.0:0.##} m" : $"{left} {(left == 1 ? "sheet" : "sheets")}";
        var black = TradeRules.BlackFor(paper.Coat) is BlackInk.Photo ? "photo black" : "matte black";
        return new(
            paper.Name,
            $"{format.Code}, {much}, coated {(paper.CoatedSides == 2 ? "both sides" : "one side")}, {black}",
            lot.Code.Value,
            lot.GoodUntil is { } until ? $"Best before {Day(until)}" : "No date stated",
            $"came {Day(lot.Received)}{(lot.Supplier is { } supplier ? $" from {supplier}" : "")}, label of {Day(today)}",
            Warn(lot, today),
            address is null ? null : QrCode.Of($"{address}/shelf/lots/{Uri.EscapeDataString(lot.Code.Value)}"));
    }

    private static string? Warn(Lot lot, DateOnly today) => lot.Condition switch
    {
        LotCondition.Scrap => "SCRAP: do not print on it",
        LotCondition.TestsOnly => "FOR TESTS ONLY",
        _ => lot.IsOutOfDate(today) ? "OUT OF DATE: for tests only" : null,
    };

    private static string Day(DateOnly day) => day.ToString("d MMM yyyy", CultureInfo.CurrentCulture);
}

/// <summary>Labels as pages: one of 100 × 62 mm, or an A4 sheet of 21.</summary>
internal static class LabelPages
{
    public const int OnASheet = 21;

    private const int Columns = 3;

    // The common A4 sheet of 21 labels: 63.5 × 38.1 mm, 2.5 mm between columns.
    private const double SheetLeft = 7.2, SheetTop = 15.1, Width = 63.5, Height = 38.1, Gap = 2.5;

    public static Document One(LabelText text)
    {
        using var document = New($"Label of lot {text.Lot}");
        using (var leaf = new Leaf(document, 100, 62))
        {
            Draw(leaf, text, new(4, 4, 92, 54, 1));
        }

        return Document.Of(document, $"label-{text.Lot}.pdf");
    }

    /// <param name="labels">What to print, in order.</param>
    /// <param name="firstFree">The first label of the first sheet that is still there, from 1.</param>
    public static Document Sheet(IReadOnlyList<LabelText> labels, int firstFree)
    {
        using var document = New("Labels");
        Leaf? leaf = null;
        for (var i = 0; i < labels.Count; i++)
        {
            var at = (firstFree - 1 + i) % OnASheet;
            if (i == 0 || at == 0)
            {
                leaf?.Dispose();
                leaf = new(document, 210, 297);
            }

            Draw(leaf!, labels[i], new(
                SheetLeft + (at % Columns * (Width + Gap)) + 3, SheetTop + (at / Columns * Height) + 3, Width - 6, Height - 6, 0.62));
        }

        leaf?.Dispose();
        return Document.Of(document, "labels.pdf");
    }

    private static PdfDocument New(string title)
    {
        var document = new PdfDocument();
        document.Info.Title = title;
        return document;
    }

    private static void Draw(Leaf leaf, LabelText text, Frame at)
    {
        var code = 36 * at.Scale;
        var beside = at.Width - code - (1 * at.Scale);
        var y = at.Y;
        foreach (var line in leaf.Lines(text.Paper, beside, Face.Strong, 5.4 * at.Scale, most: 2))
        {
            leaf.Type(line, at.X, y, Face.Strong, 5.4 * at.Scale);
            y += 6.4 * at.Scale;
        }

        foreach (var line in leaf.Lines(text.What, beside, Face.Text, 3.7 * at.Scale, most: 3))
        {
            leaf.Type(line, at.X, y + (1 * at.Scale), Face.Text, 3.7 * at.Scale);
            y += 4.6 * at.Scale;
        }

        if (text.Code is { } qr)
        {
            leaf.Qr(qr, at.X + at.Width - code + (3 * at.Scale), at.Y - (3 * at.Scale), code);
        }

        var foot = at.Y + at.Height;
        leaf.TypeFitted(text.Came, at.X, foot - (2.4 * at.Scale), at.Width, Face.Text, 3.4 * at.Scale, 2 * at.Scale);
        leaf.TypeFitted(text.Warning ?? text.Until, at.X, foot - (8 * at.Scale), at.Width, Face.Strong, 4.2 * at.Scale, 2.6 * at.Scale);
        leaf.TypeFitted(text.Lot, at.X, foot - (21 * at.Scale), beside, Face.Strong, 15 * at.Scale, 5 * at.Scale);
    }

    private readonly record struct Frame(double X, double Y, double Width, double Height, double Scale);
}

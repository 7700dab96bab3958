using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;

namespace Goodsheet.App.Buying;

/// <summary>An order to a supplier as a file and as text to send.</summary>
public static class PurchaseText
{
    /// <summary>A line each, with a point for decimals (RFC 4180). Text that a spreadsheet would take for a formula is made harmless.</summary>
    public static string Csv(ShowPurchase.Page page)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new CsvWriter(text, new CsvConfiguration(CultureInfo.InvariantCulture) { InjectionOptions = InjectionOptions.Escape, NewLine = "\r\n" }))
        {
            foreach (var heading in (string[])["order", "line", "paper", "name", "format", "packs", "pack", "unit", "price", "sum"])
            {
                csv.WriteField(heading);
            }

            csv.NextRecord();
            foreach (var line in page.Lines)
            {
                csv.WriteField(page.Order.Number);
                csv.WriteField(line.Of.Line);
                csv.WriteField(line.Of.Paper.Value);
                csv.WriteField(line.Paper);
                csv.WriteField(line.Of.Format.Value);
                csv.WriteField(line.Of.Packs);
                csv.WriteField(line.Of.PackSize);
                csv.WriteField(line.IsRoll ? "mm" : "sheets");
                csv.WriteField(Plain(line.Of.Price));
                csv.WriteField(Plain(line.Of.Sum));
                csv.NextRecord();
            }

            foreach (var piece in page.Pieces)
            {
                csv.WriteField(page.Order.Number);
                csv.WriteField(piece.Of.Line);
                csv.WriteField(piece.Of.Consumable.Value);
                csv.WriteField(piece.Name);
                csv.WriteField("");
                csv.WriteField(piece.Of.Pieces);
                csv.WriteField(1);
                csv.WriteField("pieces");
                csv.WriteField(Plain(piece.Of.Price));
                csv.WriteField(Plain(piece.Of.Sum));
                csv.NextRecord();
            }
        }

        return text.ToString();
    }

    // The two stores give 48 and 48.0: the same price reads the same.
    private static string? Plain(decimal? amount) => amount?.ToString("0.####", CultureInfo.InvariantCulture);

    public static string Subject(ShowPurchase.Page page) => $"Order {page.Order.Number} from {page.Room}";

    public static string Mail(ShowPurchase.Page page)
    {
        var culture = CultureInfo.CurrentCulture;
        var text = new StringBuilder();
        text.Append(culture, $"Order {page.Order.Number} from {page.Room}").AppendLine().AppendLine();
        foreach (var line in page.Lines)
        {
            text.Append(culture, $"{line.Of.Packs} × {line.Paper}, {line.Of.Format}, {Pack(line.Of.PackSize, line.IsRoll)}").AppendLine();
        }

        foreach (var piece in page.Pieces)
        {
            text.Append(culture, $"{piece.Of.Pieces} × {piece.Name}").AppendLine();
        }

        return text.AppendLine().AppendLine(HowSent(page)).ToString();
    }

    internal static string Pack(long size, bool isRoll) => isRoll
        ? string.Create(CultureInfo.CurrentCulture, $"a roll of {size / 1000.0:0.##} m") : string.Create(CultureInfo.CurrentCulture, $"packs of {size} sheets");

    internal static string HowSent(ShowPurchase.Page page)
    {
        var comes = page.Order.PromisedOn ?? page.Promise.ComesOn;
        return $"Please send by {page.Way.Name}. By your terms we expect it on {comes.ToString("dddd d MMMM", CultureInfo.CurrentCulture)}; tell us if it will be later, or if anything is missing.";
    }
}

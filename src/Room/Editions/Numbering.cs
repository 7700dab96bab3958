using System.Globalization;

namespace Goodsheet.Room.Editions;

/// <summary>Which number a print gets, and whether it may have one.</summary>
public static class Numbering
{
    /// <summary>The next number of a series, given all prints it has; a destroyed one keeps its number.</summary>
    public static Outcome<int> Next(Edition edition, Series series, IReadOnlyCollection<NumberedPrint> issued)
    {
        var next = issued.Select(p => p.Number).DefaultIfEmpty(0).Max() + 1;
        return edition.Of(series) is { } limit && next > limit ? new SeriesIsFull(edition.Title, series, limit) : next;
    }

    /// <summary>"4/25", "4" in an open edition, "AP 1/2", "PP 1/1", "HC 1/3".</summary>
    public static string Words(Edition edition, Series series, int number)
    {
        var of = edition.Of(series) is { } limit ? string.Create(CultureInfo.InvariantCulture, $"{number}/{limit}") : number.ToString(CultureInfo.InvariantCulture);
        return series switch
        {
            Series.ArtistsProof => $"AP {of}",
            Series.PrintersProof => $"PP {of}",
            Series.HorsCommerce => $"HC {of}",
            _ => of,
        };
    }

    public static string Name(Series series) => series switch
    {
        Series.Numbered => "numbered print",
        Series.ArtistsProof => "artist’s proof",
        Series.PrintersProof => "printer’s proof",
        Series.HorsCommerce => "hors-commerce proof",
        _ => throw new ArgumentOutOfRangeException(nameof(series)),
    };

    /// <summary>"Edition of 25, and 2 artist’s proofs, 1 printer’s proof".</summary>
    public static string Size(Edition edition)
    {
        var proofs = new[] { Series.ArtistsProof, Series.PrintersProof, Series.HorsCommerce }
            .Where(s => edition.Of(s) > 0).Select(s => $"{edition.Of(s)} {Name(s)}{(edition.Of(s) == 1 ? "" : "s")}").ToArray();
        return (edition.Limit is { } limit ? $"Edition of {limit}" : "Open edition") + (proofs.Length == 0 ? "" : $", and {string.Join(", ", proofs)}");
    }

    public sealed record SeriesIsFull(string Title, Series Series, int Limit)
        : Refusal($"{Title} has {Limit} {Name(Series)}{(Limit == 1 ? "" : "s")}, and all are issued. No number is given twice.");
}

/// <summary>The words of a certificate, exactly as they are signed.</summary>
public static class CertificateText
{
    public static string Of(Edition edition, NumberedPrint print) => string.Join('\n',
        "Certificate of authenticity",
        $"Title: {edition.Title}",
        $"Artist: {edition.Artist}",
        string.Create(CultureInfo.InvariantCulture, $"Year: {edition.Year}"),
        $"Number: {Numbering.Words(edition, print.Series, print.Number)}{(print.Replacement > 0 ? string.Create(CultureInfo.InvariantCulture, $", replacement {print.Replacement} of a destroyed print") : "")}",
        $"Of: {Numbering.Size(edition)}{(edition.SizesTogether ? ", all sizes together" : $", in the size {print.Counted}")}",
        $"Image: {print.ImageWidth.Millimetres.ToString("0.#", CultureInfo.InvariantCulture)} × {print.ImageHeight.Millimetres.ToString("0.#", CultureInfo.InvariantCulture)} mm",
        $"Sheet: {print.SheetWidth.Millimetres.ToString("0.#", CultureInfo.InvariantCulture)} × {print.SheetHeight.Millimetres.ToString("0.#", CultureInfo.InvariantCulture)} mm",
        $"Paper: {print.PaperName}",
        $"Ink: {print.Ink}",
        $"Printed: {print.PrintedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}",
        $"Register: {print.Code}");
}

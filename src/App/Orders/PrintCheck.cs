using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>What will go wrong with a print, said while the client is still there.</summary>
internal static class PrintCheck
{
    public const string NotHeld = "colours not held";
    public const string TooLarge = "too large for the paper";
    private const string ClippedDarks = "clipped darks";
    private const string ClippedLights = "clipped lights";

    /// <summary>What is found by looking at every pixel.</summary>
    public static readonly string[] OfPixelsKinds = [ClippedDarks, ClippedLights, NotHeld, .. TraceCheck.Kinds];

    private const double PpiAtOneCm = 8732; // an eye that resolves one minute of arc, at 1 cm

    private const int LongestName = 60; // letters, of a profile out of a file

    private const double Noticeable = 0.005; // of the picture; common practice, no source

    /// <param name="image">The picture's file.</param>
    /// <param name="width">Of the picture on paper.</param>
    /// <param name="height">Of the picture on paper.</param>
    /// <param name="distance">From which it is looked at.</param>
    public static IEnumerable<Said> OfImage(ImageFile image, Length width, Length height, Length distance)
    {
        var ppi = PixelsPerInch((image.Width, image.Height), (width, height));
        var wanted = Resolved(distance);
        if (ppi < wanted / 2)
        {
            yield return new("too few pixels", Severity.Warning, $"{ppi:0} pixels come on an inch; from {distance.Millimetres / 10:0} cm the eye resolves {wanted:0}. It will look soft.", "A smaller size, or a larger file.");
        }
        else if (ppi < wanted)
        {
            yield return new("few pixels", Severity.ToKnow, $"{ppi:0} pixels come on an inch, a little under the {wanted:0} the eye resolves from {distance.Millimetres / 10:0} cm.", "");
        }

        if (image.Profile is null && image.Channels != 4)
        {
            yield return new("no profile in the file", Severity.Warning, "The file does not say what its colours mean. It is printed as sRGB.", "Ask for the file with its profile.");
        }

        var source = PictureSource.ProfileOf(image);
        if (source.Fault is { } fault)
        {
            yield return new("profile in the file", Severity.Stops, fault.Message, "Ask for the file again.");
        }

        // CMYK is always in a press's colours; RGB and grey that are have been made for one printer, and will not look right on another.
        if (source.Value?.Header.Class is ProfileClass.Output && image.Channels != 4)
        {
            yield return new("profile of a printer", Severity.Warning, $"The picture is in the colours of one printer ({Short(source.Value.Description)}): what that printer could not show is gone already.", "Ask for the file before it was prepared for that printer.");
        }

        var (own, asked) = ((double)image.Width / image.Height, width.Millimetres / height.Millimetres);
        if (Math.Abs((own / asked) - 1) > 0.005)
        {
            var lost = 1 - Math.Min(own / asked, asked / own);
            yield return new("cropped", Severity.Warning, $"The picture has another shape than the print: {100 * lost:0} % of it is cut off, evenly on both sides.", "Change width or height to keep it whole.");
        }
    }

    /// <summary>How many points on an inch the eye resolves.</summary>
    public static double Resolved(Length distance) => PpiAtOneCm / (distance.Millimetres / 10);

    /// <summary>How many of the picture's own pixels come on an inch of paper.</summary>
    public static double PixelsPerInch((int Width, int Height) pixels, (Length Width, Length Height) paper) =>
        Math.Min(pixels.Width / (paper.Width.Millimetres / 25.4), pixels.Height / (paper.Height.Millimetres / 25.4));

    /// <param name="pixels">What was measured on the picture with the paper's profile.</param>
    /// <param name="pixelsPerInch">Of the picture's own on paper.</param>
    /// <param name="distance">From which it is looked at.</param>
    public static IEnumerable<Said> OfPixels(ImageStatistics pixels, double pixelsPerInch, Length distance)
    {
        var (low, high) = (pixels.ClippedLow.Max(), pixels.ClippedHigh.Max());
        if (low > Noticeable)
        {
            yield return new(ClippedDarks, Severity.ToKnow, $"{100 * low:0.0} % of the picture is as dark in one of its colours as a file can say: no drawing is left there.", "Ask whether that is meant.");
        }

        if (high > Noticeable)
        {
            yield return new(ClippedLights, Severity.ToKnow, $"{100 * high:0.0} % of the picture is as light in one of its colours as a file can say: no drawing is left there.", "Ask whether that is meant.");
        }

        if (pixels.MissedColours.Share > Noticeable)
        {
            yield return new(NotHeld, Severity.ToKnow, $"{100 * pixels.MissedColours.Share:0.0} % of the picture has colours that this paper cannot show: {pixels.MissedColours.MeanOutside:0.0} dE00 away on average, {pixels.MissedColours.Largest:0.0} at most.", "Look at the proof, or take a paper with more colour.");
        }

        foreach (var trace in TraceCheck.Of(pixels.Traces, pixelsPerInch, distance))
        {
            yield return trace;
        }
    }

    /// <param name="paper">The paper asked for.</param>
    /// <param name="standings">Of the paper's profiles, those not retired.</param>
    /// <param name="sheetsForClients">Whether any lot of it may go to a client.</param>
    /// <param name="outOfDate">Whether a lot of it is out of date.</param>
    public static IEnumerable<Said> OfPaper(Paper paper, IReadOnlyList<Standing> standings, bool sheetsForClients, bool outOfDate)
    {
        if (!standings.Contains(Standing.Trusted) && !standings.Contains(Standing.Due))
        {
            yield return new("no trusted profile", Severity.Stops, $"{paper.Name} has no trusted profile.", "Print and read a chart, or take a paper that has one.");
        }

        if (!sheetsForClients)
        {
            yield return new("not enough paper", Severity.Stops, outOfDate ? $"All {paper.Name} on the shelf is out of date." : $"There is no {paper.Name} on the shelf.", "Take another paper, or order it.");
        }
    }

    private static string Short(string name) => name.Length <= LongestName ? name : $"{name[..LongestName]}…";

    /// <param name="copies">Asked for.</param>
    /// <param name="width">Of a print, border and all.</param>
    /// <param name="height">Of a print, border and all.</param>
    /// <param name="left">What may go to clients: formats, and sheets or mm of each.</param>
    public static IEnumerable<Said> OfStock(int copies, Length width, Length height, IReadOnlyList<(Format Format, long Left)> left)
    {
        if (left.Count == 0)
        {
            yield break; // said by the paper itself
        }

        var reach = left.Sum(l => Math.Max(Copies(l.Format, l.Left, width, height), Copies(l.Format, l.Left, height, width)));
        if (reach == 0)
        {
            yield return new(TooLarge, Severity.Stops, $"No sheet or roll of it on the shelf takes a print of {width.Millimetres:0.#} × {height.Millimetres:0.#} mm.", "A smaller size, or a larger format.");
        }
        else if (reach < copies)
        {
            yield return new("not enough paper", Severity.Warning, $"What lies on the shelf gives about {reach} of the {copies} copies.", "Order more before it is promised, or print the rest later.");
        }
    }

    /// <param name="blacks">For each printer that has a profile of the paper: its name, the black it has in, the black the paper takes, and what the change costs.</param>
    public static IEnumerable<Said> OfBlack(IReadOnlyList<(string Printer, BlackInk In, BlackInk Wants, double Minutes, double Ml)> blacks)
    {
        if (blacks.Count > 0 && blacks.All(b => b.In != b.Wants))
        {
            var (printer, has, wants, minutes, ml) = blacks[0];
            yield return new("another black", Severity.ToKnow, $"{printer} has {HandlingAdvice.BlackWords(has)} in; this paper takes {HandlingAdvice.BlackWords(wants)}. The wrong one gives weak, greyish blacks.",
                $"The change takes {minutes:0.#} minutes and {ml:0.#} ml of ink: print it with others that want the same black.");
        }
    }

    // In rows, all one way round: what is certain to come out, not the most that might.
    private static long Copies(Format format, long left, Length width, Length height)
    {
        var across = format.Width.Micrometres / width.Micrometres;
        var along = format.IsRoll ? left * 1_000L / height.Micrometres : format.Height.Micrometres / height.Micrometres;
        return format.IsRoll ? across * along : left * across * along;
    }

    public sealed record Said(string Kind, Severity Severity, string Text, string Help);
}

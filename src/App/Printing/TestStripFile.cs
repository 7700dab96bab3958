using Goodsheet.Imaging;

namespace Goodsheet.App.Printing;

/// <summary>A test strip as a print of its own: the piece, ticks at its corners, and under it what it is.</summary>
internal static class TestStripFile
{
    private const double MarginMm = 6;
    private const double TickMm = 4;
    private const double LineMm = 0.15;
    private const double LeastWidthMm = 60; // of what is written under it

    /// <summary>Writes it, whole or not at all.</summary>
    /// <param name="request">What, of which picture, where to.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="disk">Asked whether there is room; none for this machine's own.</param>
    /// <param name="cancel">Stops it.</param>
    public static PictureResult<Prepared> Write(Request request, IProgress<double>? progress, DiskRoom? disk, CancellationToken cancel)
    {
        var recipe = request.Recipe;
        if (recipe.Fault() is { } impossible)
        {
            return impossible;
        }

        var (x, y) = (recipe.Pixels(request.XMm), recipe.Pixels(request.YMm));
        var window = new PrintWindow(
            Math.Min(x, recipe.PictureWidth - 1), Math.Min(y, recipe.PictureHeight - 1),
            Math.Min(recipe.Pixels(request.WidthMm), recipe.PictureWidth - x), Math.Min(recipe.Pixels(request.HeightMm), recipe.PictureHeight - y));
        var piece = request.Output + ".piece.tif";
        if (RoomForSheets.Lacks(disk, piece, request.Profile, c => window.Bytes(c, eightBits: false) + Plan(request, piece, window).Bytes(c)) is { } full)
        {
            return full;
        }

        try
        {
            var cut = PrintPieces.Run(request.Picture, request.Profile, recipe with { EightBits = false }, [(window, piece)], progress, disk, cancel);
            return cut.Fault is { } fault ? fault : SheetFile.Write(Plan(request, piece, window), request.Profile, request.Output, null, disk, cancel);
        }
        finally
        {
            File.Delete(piece);
        }
    }

    private static SheetPlan Plan(Request request, string piece, PrintWindow window)
    {
        double Mm(int pixels) => pixels * 25.4 / request.Recipe.Ppi;
        var (width, height) = (Mm(window.Width), Mm(window.Height));
        var inner = Math.Max(width, LeastWidthMm);
        var lines = DotText.Lines(request.Says, inner);
        var (right, bottom) = (MarginMm + width, MarginMm + height);
        var ticks = new[]
        {
            new SheetMark(MarginMm, 1, LineMm, TickMm), new(right - LineMm, 1, LineMm, TickMm), new(1, MarginMm, TickMm, LineMm), new(1, bottom - LineMm, TickMm, LineMm),
            new(right + 1, MarginMm, TickMm, LineMm), new(right + 1, bottom - LineMm, TickMm, LineMm), new(MarginMm, bottom + 1, LineMm, TickMm), new(right - LineMm, bottom + 1, LineMm, TickMm),
        };
        var words = lines.SelectMany((l, i) => DotText.Marks(l, MarginMm, bottom + MarginMm + 1 + (i * DotText.LineMm())));
        return new(
            inner + (2 * MarginMm), bottom + (2 * MarginMm) + (lines.Count * DotText.LineMm()), request.Recipe.Ppi,
            [new(piece, MarginMm, MarginMm, Turned: false)], [.. ticks, .. words], request.Recipe.EightBits);
    }

    /// <param name="Picture">The picture's file.</param>
    /// <param name="Profile">Of the printing condition.</param>
    /// <param name="Recipe">How the whole print is prepared.</param>
    /// <param name="XMm">Of the strip on the print, from the picture's left edge.</param>
    /// <param name="YMm">From its upper edge.</param>
    /// <param name="WidthMm">Of the strip; what would lie outside is left out.</param>
    /// <param name="HeightMm">Of the strip.</param>
    /// <param name="Says">What is written under it.</param>
    /// <param name="Output">Where to.</param>
    public sealed record Request(
        string Picture, byte[] Profile, PrintRecipe Recipe, double XMm, double YMm, double WidthMm, double HeightMm, string Says, string Output);
}

using Goodsheet.Imaging;
using Goodsheet.Room.Layout;

namespace Goodsheet.App.Printing;

/// <summary>The tiles of a print as files of their own: the piece, marks to trim and to join by, and its number.</summary>
internal static class TileFiles
{
    /// <summary>Bare paper that the marks and the words of a tile take on each side.</summary>
    public const double MarginMm = 9;

    private const double GapMm = 1;
    private const double TickMm = 5;
    private const double CrossMm = 3;
    private const double LineMm = 0.15;

    /// <summary>Writes all tiles, whole or none.</summary>
    public static PictureResult<Prepared> Write(Request request, IProgress<double>? progress, DiskRoom? disk, CancellationToken cancel)
    {
        if (request.Recipe.Fault() is { } impossible)
        {
            return impossible;
        }

        var tiles = request.Tiling.Tiles;
        string Piece(Tile tile) => request.Output(tile) + ".piece.tif";
        if (RoomForSheets.Lacks(disk, request.Output(tiles[0]), request.Profile, c => tiles.Sum(t => Window(t, request.Recipe).Bytes(c, eightBits: false) + Plan(request, t, "").Bytes(c))) is { } full)
        {
            return full;
        }

        var (written, whole) = (new List<string>(), false);
        try
        {
            var pieces = PrintPieces.Run(
                request.Picture, request.Profile, request.Recipe with { EightBits = false }, [.. tiles.Select(t => (Window(t, request.Recipe), Piece(t)))],
                progress is null ? null : new Part(progress, 0, 0.7), disk, cancel);
            if (pieces.Fault is { } fault)
            {
                return fault;
            }

            foreach (var tile in tiles)
            {
                var made = SheetFile.Write(Plan(request, tile, Piece(tile)), request.Profile, request.Output(tile), null, disk, cancel);
                if (made.Fault is { } no)
                {
                    return no;
                }

                written.Add(request.Output(tile));
                progress?.Report(0.7 + (0.3 * tile.Number / tiles.Count));
            }

            whole = true;
            return pieces;
        }
        finally
        {
            if (!whole)
            {
                written.ForEach(File.Delete); // also when it was stopped half-way
            }

            tiles.ToList().ForEach(t => File.Delete(Piece(t)));
        }
    }

    /// <summary>The pages of a PDF: each is trimmed where its neighbours begin.</summary>
    public static IReadOnlyList<PdfPage> Pages(Tiling tiling, PrintRecipe recipe, Func<Tile, string> file) => [.. tiling.Tiles.Select(tile =>
    {
        var (window, margin) = (Window(tile, recipe), recipe.Pixels(tiling.Margin.Millimetres));
        PixelBox Box(int left, int top, int right, int bottom)
        {
            var (x, y, width, height) = (margin + left - window.X, margin + top - window.Y, right - left, bottom - top);
            return tiling.Turned ? new((2 * margin) + window.Height - y - height, x, height, width) : new(x, y, width, height);
        }

        var trim = Box(recipe.Pixels(tile.Left.Millimetres), recipe.Pixels(tile.Top.Millimetres), recipe.Pixels(tile.Right.Millimetres), recipe.Pixels(tile.Bottom.Millimetres));
        return new PdfPage(file(tile), recipe.Ppi, trim, Box(window.X, window.Y, window.X + window.Width, window.Y + window.Height));
    })];

    // Both edges are rounded from the same corner of the whole, so that tiles make it to the pixel.
    private static PrintWindow Window(Tile tile, PrintRecipe recipe)
    {
        var (x, y) = (recipe.Pixels(tile.X.Millimetres), recipe.Pixels(tile.Y.Millimetres));
        return new(x, y, recipe.Pixels((tile.X + tile.Width).Millimetres) - x, recipe.Pixels((tile.Y + tile.Height).Millimetres) - y);
    }

    private static SheetPlan Plan(Request request, Tile tile, string piece)
    {
        var (tiling, margin) = (request.Tiling, request.Tiling.Margin.Millimetres);
        double Mm(int pixels) => pixels * 25.4 / request.Recipe.Ppi;
        var window = Window(tile, request.Recipe);
        var (width, height) = (Mm(window.Width) + (2 * margin), Mm(window.Height) + (2 * margin));
        var marks = Ticks(tile, margin, width, height).Concat(Words(request, tile, margin, height)).ToList();
        return tiling.Turned
            ? new(height, width, request.Recipe.Ppi, [new(piece, margin, margin, Turned: true)], [.. marks.Select(m => new SheetMark(height - m.YMm - m.HeightMm, m.XMm, m.HeightMm, m.WidthMm))], request.Recipe.EightBits)
            : new(width, height, request.Recipe.Ppi, [new(piece, margin, margin, Turned: false)], marks, request.Recipe.EightBits);
    }

    // At both ends of every edge that is trimmed; where a neighbour follows, a cross that stands at the same place on both.
    private static IEnumerable<SheetMark> Ticks(Tile tile, double margin, double width, double height)
    {
        foreach (var (at, joins) in (((double, bool)[])[(margin + (tile.Left - tile.X).Millimetres, tile.Left > tile.X), (margin + (tile.Right - tile.X).Millimetres, tile.Right < tile.X + tile.Width)]))
        {
            foreach (var y in (double[])[margin - GapMm - TickMm, height - margin + GapMm])
            {
                yield return new(at - (LineMm / 2), y, LineMm, TickMm);
                if (joins)
                {
                    yield return new(at - (CrossMm / 2), y + (TickMm / 2), CrossMm, LineMm);
                }
            }
        }

        foreach (var (at, joins) in (((double, bool)[])[(margin + (tile.Top - tile.Y).Millimetres, tile.Top > tile.Y), (margin + (tile.Bottom - tile.Y).Millimetres, tile.Bottom < tile.Y + tile.Height)]))
        {
            foreach (var x in (double[])[margin - GapMm - TickMm, width - margin + GapMm])
            {
                yield return new(x, at - (LineMm / 2), TickMm, LineMm);
                if (joins)
                {
                    yield return new(x + (TickMm / 2), at - (CrossMm / 2), LineMm, CrossMm);
                }
            }
        }
    }

    private static IEnumerable<SheetMark> Words(Request request, Tile tile, double margin, double height)
    {
        var says = FormattableString.Invariant($"Tile {tile.Number} of {request.Tiling.Tiles.Count} column {tile.Column} row {tile.Row} - {request.Says}");
        var line = DotText.Lines(says, tile.Width.Millimetres - (4 * margin))[0];
        return DotText.Marks(line, margin + (2 * margin), height - margin + GapMm + 1);
    }

    /// <param name="Picture">The picture's file.</param>
    /// <param name="Profile">Of the printing condition.</param>
    /// <param name="Recipe">How the whole is prepared.</param>
    /// <param name="Tiling">Its tiles.</param>
    /// <param name="Says">What is written on each after its number.</param>
    /// <param name="Output">Where each goes.</param>
    public sealed record Request(string Picture, byte[] Profile, PrintRecipe Recipe, Tiling Tiling, string Says, Func<Tile, string> Output);

    private sealed class Part(IProgress<double> of, double from, double share) : IProgress<double>
    {
        public void Report(double value) => of.Report(from + (share * value));
    }
}

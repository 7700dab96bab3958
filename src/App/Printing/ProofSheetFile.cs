using Goodsheet.Imaging;

namespace Goodsheet.App.Printing;

/// <summary>A sheet of small prints of one picture, each with its label, as large as the sheet holds them.</summary>
internal static class ProofSheetFile
{
    public const int MostCells = 24;

    private const double EdgeMm = 4;  // what the printer's margin leaves is cut off by its driver already
    private const double GapMm = 4;
    private const double LeastCellMm = 15;
    private const int LabelLines = 2;
    private static readonly (double Least, double Most) LabelDotMm = (0.2, 0.5); // larger under larger proofs, which are looked at from farther
    private const double DotOfCell = 1 / 350.0;

    /// <summary>Writes it, whole or not at all.</summary>
    public static PictureResult<Prepared> Write(Request request, IProgress<double>? progress, DiskRoom? disk, CancellationToken cancel)
    {
        if (request.Cells.Count is 0 or > MostCells || Lay(request) is not { } laid)
        {
            return new PictureFault($"{request.Cells.Count} proofs do not go on {request.WidthMm:0.#} × {request.HeightMm:0.#} mm: 1 to {MostCells}, each at least {LeastCellMm:0} mm wide. Take a larger sheet.");
        }

        var size = request.Size with { WidthMm = laid.Width, HeightMm = laid.Height };
        SheetPlan Sheet(IReadOnlyList<LaidPrint> prints, IReadOnlyList<SheetMark> marks) => new(request.WidthMm, request.HeightMm, size.Ppi, prints, marks, request.Size.EightBits);
        if (RoomForSheets.Lacks(disk, request.Output, request.Profile, c => (request.Cells.Count * (size with { EightBits = false }).Bytes(c)) + Sheet([], []).Bytes(c)) is { } full)
        {
            return full;
        }

        string Cell(int i) => $"{request.Output}.cell-{i}.tif";
        try
        {
            for (var i = 0; i < request.Cells.Count; i++)
            {
                var made = request.Cells[i].Prepare(request.Picture, request.Profile, size with { EightBits = false }, Cell(i), disk, cancel);
                if (made.Fault is { } fault)
                {
                    return fault;
                }

                progress?.Report(0.9 * (i + 1) / request.Cells.Count);
            }

            var prints = request.Cells.Select((_, i) => new LaidPrint(Cell(i), laid.X(i), laid.Y(i), Turned: false)).ToList();
            var labels = request.Cells.SelectMany((c, i) => DotText.Lines(c.Label, laid.Width, laid.Dot).Take(LabelLines)
                .SelectMany((line, n) => DotText.Marks(line, laid.X(i), laid.Y(i) + laid.Height + 1 + (n * DotText.LineMm(laid.Dot)), laid.Dot)));
            var head = DotText.Marks(DotText.Lines(request.Says, request.WidthMm - (2 * EdgeMm))[0], EdgeMm, EdgeMm);
            return SheetFile.Write(Sheet(prints, [.. head, .. labels]), request.Profile, request.Output, null, disk, cancel);
        }
        finally
        {
            for (var i = 0; i < request.Cells.Count; i++)
            {
                File.Delete(Cell(i));
            }
        }
    }

    // The number of columns that makes the cells largest.
    private static Grid? Lay(Request request)
    {
        var (top, best) = (EdgeMm + DotText.LineMm() + 2, (Grid?)null);
        for (var columns = 1; columns <= request.Cells.Count; columns++)
        {
            var rows = (request.Cells.Count + columns - 1) / columns;
            var across = (request.WidthMm - (2 * EdgeMm) - ((columns - 1) * GapMm)) / columns;
            var dot = Math.Clamp(across * DotOfCell, LabelDotMm.Least, LabelDotMm.Most);
            var label = (LabelLines * DotText.LineMm(dot)) + 1;
            var down = ((request.HeightMm - top - EdgeMm - ((rows - 1) * GapMm)) / rows) - label;
            var width = Math.Floor(Math.Min(across, down * request.Shape) * 10) / 10;
            if (width >= LeastCellMm && width > (best?.Width ?? 0))
            {
                best = new(columns, width, width / request.Shape, top, label, dot);
            }
        }

        return best;
    }

    /// <param name="Picture">The picture's file.</param>
    /// <param name="Profile">Of the paper the sheet is printed on.</param>
    /// <param name="Size">Resolution and sharpening of the print; its size is the cell's.</param>
    /// <param name="Shape">Width by height of the print.</param>
    /// <param name="Cells">What is shown.</param>
    /// <param name="WidthMm">Of the sheet, what can be printed of it.</param>
    /// <param name="HeightMm">Of the sheet.</param>
    /// <param name="Says">What stands above.</param>
    /// <param name="Output">Where to.</param>
    public sealed record Request(
        string Picture, byte[] Profile, PrintRecipe Size, double Shape, IReadOnlyList<ProofCell> Cells, double WidthMm, double HeightMm, string Says, string Output);

    private sealed record Grid(int Columns, double Width, double Height, double Top, double Label, double Dot)
    {
        public double X(int i) => EdgeMm + (i % Columns * (Width + GapMm));

        public double Y(int i) => Top + (i / Columns * (Height + Label + GapMm));
    }
}

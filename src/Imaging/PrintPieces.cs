using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>A piece of a print-ready picture, in pixels of the printer from its upper left corner, border and wrap left out.</summary>
public readonly record struct PrintWindow(int X, int Y, int Width, int Height)
{
    /// <summary>Bytes of a file of it, but for what that carries beside its pixels.</summary>
    public long Bytes(int channels, bool eightBits) => DiskRoom.Of(Width, Height, channels, eightBits);
}

/// <summary>Pieces of a print as the whole would be printed: pixel for pixel what stands there in its print-ready file.</summary>
/// <remarks>For a test strip in full size, and for prints that go onto several sheets. The picture is read once from top to
/// bottom, so that size and sharpening are those of the whole; only the pieces are brought to the printer's colours.</remarks>
public static class PrintPieces
{
    /// <summary>More files than one print is ever cut into.</summary>
    public const int Most = 400;

    /// <summary>Prepares pieces. All are there whole, under their names, or none.</summary>
    /// <param name="picture">The picture's file.</param>
    /// <param name="profile">The printing condition's ICC profile.</param>
    /// <param name="recipe">How the whole is prepared; its border and wrap do not count.</param>
    /// <param name="pieces">What is cut out, and where to.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="disk">Asked whether there is room; none for this machine's own.</param>
    /// <param name="cancel">Stops it, leaving nothing.</param>
    public static PictureResult<Prepared> Run(
        string picture, byte[] profile, PrintRecipe recipe, IReadOnlyList<(PrintWindow At, string Output)> pieces,
        IProgress<double>? progress = null, DiskRoom? disk = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        ArgumentNullException.ThrowIfNull(pieces);
        if (recipe.Fault() is { } impossible)
        {
            return impossible;
        }

        var (width, height) = (recipe.PictureWidth, recipe.PictureHeight);
        if (pieces.Count is 0 or > Most || pieces.Any(p => p.At is not { X: >= 0, Y: >= 0, Width: > 0, Height: > 0 } at || at.X > width - at.Width || at.Y > height - at.Height))
        {
            return new PictureFault($"A piece lies within the {width} × {height} pixels of the print, and there are 1 to {Most} of them.");
        }

        var source = PrintSource.Of(picture, profile);
        if (source.Value is not { } between)
        {
            return source.Fault!;
        }

        var moved = new List<string>();
        try
        {
            var convert = RowColours.Of(between, recipe);
            if ((disk ?? DiskRoom.OfThisMachine).Lacks(pieces[0].Output, pieces.Sum(p => p.At.Bytes(convert.Outputs, recipe.EightBits))) is { } full)
            {
                return full;
            }

            using (var rows = PictureRows.Open(picture))
            {
                Write(rows, recipe, convert, (between.To, PictureNotes.Of(picture)), pieces, progress, cancel);
            }

            foreach (var (_, output) in pieces)
            {
                File.Move(Coming(output), output, overwrite: true);
                moved.Add(output);
            }

            return new Prepared(width, height, convert.Outputs, between.Image.Width / (recipe.WidthMm / 25.4));
        }
        catch (ArgumentException e)
        {
            return new PictureFault(e.Message);
        }
        catch (VipsException e)
        {
            return new PictureFault($"The picture's file is damaged: {ImageFile.FirstLine(e)} Nothing was kept.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            moved.ForEach(File.Delete);
            return new PictureFault($"A piece could not be written: {e.Message} Nothing was kept.");
        }
        finally
        {
            foreach (var (_, output) in pieces)
            {
                File.Delete(Coming(output));
            }
        }
    }

    private static string Coming(string output) => output + ".coming";

    private static void Write(
        PictureRows picture, PrintRecipe recipe, RowColours convert, (IccProfile Profile, PictureNotes Notes) carried, IReadOnlyList<(PrintWindow At, string Output)> pieces,
        IProgress<double>? progress, CancellationToken cancel)
    {
        var cuts = new List<Cut>();
        try
        {
            foreach (var (at, output) in pieces)
            {
                File.Delete(Coming(output));
                cuts.Add(new(at, new(Coming(output), at.Width, at.Height, convert.Outputs, recipe.EightBits), convert));
            }

            var read = PrintPreparation.Rows(picture, recipe);
            var codes = new ushort[SizedRows.RowsTogether * recipe.PictureWidth * convert.Inputs];
            var end = pieces.Max(p => p.At.Y + p.At.Height);
            for (var y = 0; y < end; y += SizedRows.RowsTogether)
            {
                cancel.ThrowIfCancellationRequested();
                var count = Math.Min(SizedRows.RowsTogether, recipe.PictureHeight - y);
                read(count, codes);
                cuts.ForEach(c => c.Take(y, count, codes, recipe.PictureWidth));
                progress?.Report(Math.Min(1, (double)(y + count) / end));
            }

            cuts.ForEach(c => c.Tiff.Finish(recipe.Ppi, carried.Profile.Bytes.ToArray(), carried.Notes));
        }
        finally
        {
            cuts.ForEach(c => c.Tiff.Dispose());
        }
    }

    /// <summary>One piece while it is written.</summary>
    private sealed class Cut(PrintWindow at, TiffStrips tiff, RowColours convert)
    {
        private readonly ushort[] colours = new ushort[SizedRows.RowsTogether * at.Width * convert.Outputs];

        public TiffStrips Tiff => tiff;

        public void Take(int y, int count, ushort[] rows, int width)
        {
            var (first, end) = (Math.Max(y, at.Y), Math.Min(y + count, at.Y + at.Height));
            if (first >= end)
            {
                return;
            }

            var length = at.Width * convert.Outputs;
            Parallel.For(first, end, row => convert.Convert(
                rows.AsSpan((((row - y) * width) + at.X) * convert.Inputs, at.Width * convert.Inputs), colours.AsSpan((row - first) * length, length)));
            tiff.WriteAt(first - at.Y, colours.AsSpan(0, (end - first) * length));
        }
    }
}

using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>Makes a picture ready for a printer that gets no colour management in its driver: exact size, sharpened, in the paper's own colours.</summary>
public static class PrintPreparation
{
    /// <summary>Prepares a file. It is there whole, under its name, or not at all.</summary>
    /// <param name="picture">The picture's file.</param>
    /// <param name="profile">The printing condition's ICC profile.</param>
    /// <param name="recipe">How.</param>
    /// <param name="output">Where to; what was there is replaced when the new one is whole.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="cancel">Stops it, leaving nothing.</param>
    public static PictureResult<Prepared> Run(
        string picture, byte[] profile, PrintRecipe recipe, string output, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        if (recipe.Fault() is { } impossible)
        {
            return impossible;
        }

        var source = PrintSource.Of(picture, profile);
        if (source.Value is not { } between)
        {
            return source.Fault!;
        }

        try
        {
            return Run(picture, between, RowColours.Of(between, recipe), recipe, output, progress, cancel);
        }
        catch (ArgumentException e)
        {
            return new PictureFault(e.Message);
        }
    }

    /// <summary>The same with colours of another kind.</summary>
    internal static PictureResult<Prepared> Run(
        string picture, PrintSource source, RowColours convert, PrintRecipe recipe, string output, IProgress<double>? progress, CancellationToken cancel)
    {
        var coming = output + ".coming";
        try
        {
            File.Delete(coming);
            using (var rows = PictureRows.Open(picture))
            {
                Write(rows, recipe, convert, (source.To, PictureNotes.Of(picture)), coming, progress, cancel);
            }

            File.Move(coming, output, overwrite: true);
            return new Prepared(recipe.FullWidth, recipe.FullHeight, convert.Outputs, source.Image.Width / (recipe.WidthMm / 25.4));
        }
        catch (VipsException e)
        {
            return new PictureFault($"The picture's file is damaged: {ImageFile.FirstLine(e)} Nothing was kept.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new PictureFault($"The print's file could not be written: {e.Message} Nothing was kept.");
        }
        finally
        {
            File.Delete(coming);
        }
    }

    private static void Write(
        PictureRows picture, PrintRecipe recipe, RowColours convert, (IccProfile Profile, PictureNotes Notes) carried, string path, IProgress<double>? progress, CancellationToken cancel)
    {
        using var tiff = new TiffStrips(path, recipe.FullWidth, recipe.FullHeight, convert.Outputs, recipe.EightBits);
        var frame = new PrintFrame(recipe, convert.Outputs);
        var (width, height, wrap, channels) = (recipe.PictureWidth, recipe.PictureHeight, recipe.WrapPixels, convert.Outputs);
        var (top, line) = (recipe.BorderPixels + wrap, new ushort[recipe.FullWidth * channels]);
        var bare = recipe.BorderPixels + (recipe.WrapAs is WrapKind.Plain ? wrap : 0);
        for (var y = 0; y < bare; y++)
        {
            frame.Border(y, line);
            tiff.WriteAt(y, line);
        }

        var read = Rows(picture, recipe);
        var codes = new ushort[SizedRows.RowsTogether * width * convert.Inputs];
        var colours = new ushort[SizedRows.RowsTogether * width * channels];
        for (var y = 0; y < height; y += SizedRows.RowsTogether)
        {
            cancel.ThrowIfCancellationRequested();
            var count = Math.Min(SizedRows.RowsTogether, height - y);
            read(count, codes);
            convert.Convert(codes.AsMemory(0, count * width * convert.Inputs), colours.AsMemory(0, count * width * channels));
            for (var row = 0; row < count; row++)
            {
                var inside = line.AsSpan(recipe.BorderPixels * channels, (width + (2 * wrap)) * channels);
                Lay(colours.AsSpan(row * width * channels, width * channels), inside, recipe, channels);
                Give(top + y + row);
                var (above, below) = (recipe.WrapStretch * (y + row), recipe.WrapStretch * (height - 1 - y - row));
                for (var further = 0; recipe.WrapAs is not WrapKind.Plain && further < recipe.WrapStretch; further++)
                {
                    if (above + further < wrap)
                    {
                        Give(top - 1 - above - further);
                    }

                    if (below + further < wrap)
                    {
                        Give(top + height + below + further);
                    }
                }
            }

            progress?.Report((double)(y + count) / height);
        }

        for (var y = recipe.FullHeight - bare; y < recipe.FullHeight; y++)
        {
            frame.Border(y, line);
            tiff.WriteAt(y, line);
        }

        tiff.Finish(recipe.Ppi, carried.Profile.Bytes.ToArray(), carried.Notes);

        void Give(int y)
        {
            frame.Sides(y, line);
            tiff.WriteAt(y, line);
        }
    }

    // The row in the middle, and on both sides of it mirrored, drawn out or bare.
    private static void Lay(ReadOnlySpan<ushort> row, Span<ushort> into, PrintRecipe recipe, int channels)
    {
        var wrap = recipe.WrapPixels;
        if (recipe.WrapAs is WrapKind.Plain)
        {
            into.Fill(PrintFrame.PaperOf(channels));
        }

        row.CopyTo(into[(wrap * channels)..]);
        for (var x = 0; recipe.WrapAs is not WrapKind.Plain && x < wrap; x++)
        {
            var from = x / recipe.WrapStretch;
            row.Slice(from * channels, channels).CopyTo(into[((wrap - 1 - x) * channels)..]);
            row.Slice(row.Length - ((from + 1) * channels), channels).CopyTo(into[((wrap + x) * channels + row.Length)..]);
        }
    }

    // What needs neither another size nor sharpening is read as it is.
    internal static Action<int, ushort[]> Rows(PictureRows picture, PrintRecipe recipe)
    {
        var asItIs = picture.Width == recipe.PictureWidth && picture.Height == recipe.PictureHeight && !SharpRows.Sharpens(recipe);
        return asItIs ? (count, codes) => picture.Read(count, codes)
            : new SharpRows(new(picture, recipe.PictureWidth, recipe.PictureHeight), recipe.PictureHeight, recipe).Read;
    }
}

/// <summary>What was made.</summary>
/// <param name="Width">In pixels, border and all.</param>
/// <param name="Height">In pixels.</param>
/// <param name="Channels">Of the printer.</param>
/// <param name="PicturePpi">How many of the picture's own pixels came on an inch.</param>
public sealed record Prepared(int Width, int Height, int Channels, double PicturePpi);

using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>Makes a picture ready for a printer that gets no colour management in its driver: exact size, sharpened, in the paper's own colours.</summary>
public static class PrintPreparation
{
    // What is read, converted and written in one go, where nothing else is done: it stays near the core from the one to the other.
    private const int BytesTogether = 1 << 18;

    /// <summary>Prepares a file. It is there whole, under its name, or not at all.</summary>
    /// <param name="picture">The picture's file.</param>
    /// <param name="profile">The printing condition's ICC profile.</param>
    /// <param name="recipe">How.</param>
    /// <param name="output">Where to; what was there is replaced when the new one is whole.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="disk">Asked whether there is room; none for this machine's own.</param>
    /// <param name="cancel">Stops it, leaving nothing.</param>
    public static PictureResult<Prepared> Run(
        string picture, byte[] profile, PrintRecipe recipe, string output, IProgress<double>? progress = null, DiskRoom? disk = null, CancellationToken cancel = default)
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
            return Run(picture, between, RowColours.Of(between, recipe), recipe, output, progress, disk, cancel);
        }
        catch (ArgumentException e)
        {
            return new PictureFault(e.Message);
        }
    }

    /// <summary>The same with colours of another kind.</summary>
    internal static PictureResult<Prepared> Run(
        string picture, PrintSource source, RowColours convert, PrintRecipe recipe, string output, IProgress<double>? progress, DiskRoom? disk, CancellationToken cancel)
    {
        if ((disk ?? DiskRoom.OfThisMachine).Lacks(output, recipe.Bytes(convert.Outputs)) is { } full)
        {
            return full;
        }

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
        var line = new ushort[recipe.FullWidth * convert.Outputs];
        var bare = recipe.BorderPixels + (recipe.WrapAs is WrapKind.Plain ? recipe.WrapPixels : 0);
        foreach (var y in Enumerable.Range(0, bare).Concat(Enumerable.Range(recipe.FullHeight - bare, bare)))
        {
            frame.Border(y, line);
            tiff.WriteAt(y, line);
        }

        var (turn, read, next, done) = (new Lock(), Rows(picture, recipe), 0, 0);
        var together = IsAsItIs(picture, recipe) ? Math.Clamp(BytesTogether / (2 * recipe.PictureWidth * convert.Inputs), 1, SizedRows.RowsTogether) : SizedRows.RowsTogether;
        EachCore.Run(() =>
        {
            var codes = new ushort[together * recipe.PictureWidth * convert.Inputs];
            var lines = new PrintLines(recipe, frame, convert);
            while (true)
            {
                int y, count;
                lock (turn)
                {
                    cancel.ThrowIfCancellationRequested();
                    (y, count) = (next, Math.Min(together, recipe.PictureHeight - next));
                    if (count == 0)
                    {
                        return;
                    }

                    read(count, codes);
                    next += count;
                }

                lines.Write(y, count, codes, tiff);
                lock (turn)
                {
                    done += count;
                    progress?.Report((double)done / recipe.PictureHeight);
                }
            }
        });
        cancel.ThrowIfCancellationRequested();
        tiff.Finish(recipe.Ppi, carried.Profile.Bytes.ToArray(), carried.Notes);
    }

    // What needs neither another size nor sharpening is read as it is.
    internal static Action<int, ushort[]> Rows(PictureRows picture, PrintRecipe recipe) => IsAsItIs(picture, recipe)
        ? (count, codes) => picture.Read(count, codes)
        : new SharpRows(new(picture, recipe.PictureWidth, recipe.PictureHeight), recipe.PictureHeight, recipe).Read;

    private static bool IsAsItIs(PictureRows picture, PrintRecipe recipe) =>
        picture.Width == recipe.PictureWidth && picture.Height == recipe.PictureHeight && !SharpRows.Sharpens(recipe);
}

/// <summary>What was made.</summary>
/// <param name="Width">In pixels, border and all.</param>
/// <param name="Height">In pixels.</param>
/// <param name="Channels">Of the printer.</param>
/// <param name="PicturePpi">How many of the picture's own pixels came on an inch.</param>
public sealed record Prepared(int Width, int Height, int Channels, double PicturePpi);

using System.Runtime.InteropServices;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>Makes a picture ready for a printer that gets no colour management in its driver: exact size, sharpened, in the paper's own colours.</summary>
public static class PrintPreparation
{
    private const int RowsTogether = 128;
    private const double Linear = 2.2;          // near enough to any picture's curve: light is what must add up
    private const double MarkMm = 0.15;
    private const double MarkLengthMm = 4;
    private const double LeastBorderForMarksMm = 3;

    /// <summary>Prepares a file. It is there whole, under its name, or not at all.</summary>
    /// <param name="picture">The picture's file.</param>
    /// <param name="profile">The printing condition's ICC profile.</param>
    /// <param name="recipe">How.</param>
    /// <param name="output">Where to; what was there is replaced when the new one is whole.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="cancel">Stops it, leaving nothing.</param>
    /// <exception cref="IOException">The disk is full or broken; nothing is left behind.</exception>
    public static PictureResult<Prepared> Run(
        string picture, byte[] profile, PrintRecipe recipe, string output, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        if (recipe.Fault() is { } impossible)
        {
            return impossible;
        }

        var probed = ImageFile.Probe(picture);
        if (probed.Value is not { } image)
        {
            return probed.Fault!;
        }

        var source = PictureSource.ProfileOf(image);
        if (source.Value is not { } from)
        {
            return source.Fault!;
        }

        var read = IccProfile.Read(profile);
        if (read.Profile is not { } to)
        {
            return new PictureFault($"The printer's profile is damaged at byte {read.Fault!.Offset}: {read.Fault.Message}");
        }

        PixelRows convert;
        try
        {
            convert = new(ColourTransform.Create(from, to, recipe.Intent, recipe.BlackPointCompensation));
        }
        catch (ArgumentException e)
        {
            return new PictureFault(e.Message);
        }

        var coming = output + ".coming";
        try
        {
            File.Delete(coming);
            Write(picture, recipe, convert, to, coming, progress, cancel);
            File.Move(coming, output, overwrite: true);
            return new Prepared(recipe.FullWidth, recipe.FullHeight, convert.Outputs, image.Width / (recipe.WidthMm / 25.4));
        }
        catch (VipsException e)
        {
            return new PictureFault($"The picture's file is damaged: {ImageFile.FirstLine(e)} Nothing was kept.");
        }
        finally
        {
            File.Delete(coming);
        }
    }

    private static void Write(
        string picture, PrintRecipe recipe, PixelRows convert, IccProfile to, string path, IProgress<double>? progress, CancellationToken cancel)
    {
        using var upright = PictureSource.Upright(picture);
        using var sized = Resize(upright, recipe);
        using var sharp = Sharpen(sized, recipe);
        using var region = Region.New(sharp);
        using var tiff = new TiffStrips(path, recipe.FullWidth, recipe.FullHeight, convert.Outputs);
        var frame = new Frame(recipe, convert.Outputs);
        var (width, height) = (recipe.PictureWidth, recipe.PictureHeight);
        var line = new ushort[recipe.FullWidth * convert.Outputs];
        var colours = new ushort[width * convert.Outputs * RowsTogether];
        for (var y = 0; y < recipe.BorderPixels; y++)
        {
            frame.Border(y, line);
            tiff.Write(line);
        }

        // While the last rows are converted the next ones are read: two cores have work.
        var next = Task.Run(() => Fetch(region, 0, width, height), cancel);
        for (var y = 0; y < height; y += RowsTogether)
        {
            cancel.ThrowIfCancellationRequested();
            var rows = next.GetAwaiter().GetResult();
            var (from, count) = (y + RowsTogether, Math.Min(RowsTogether, height - y));
            next = from < height ? Task.Run(() => Fetch(region, from, width, height), cancel) : Task.FromResult(Array.Empty<ushort>());
            convert.Convert(rows, colours.AsMemory(0, width * count * convert.Outputs));
            for (var row = 0; row < count; row++)
            {
                frame.Sides(line);
                colours.AsSpan(row * width * convert.Outputs, width * convert.Outputs).CopyTo(line.AsSpan(recipe.BorderPixels * convert.Outputs));
                tiff.Write(line);
            }

            progress?.Report((double)(y + count) / height);
        }

        for (var y = 0; y < recipe.BorderPixels; y++)
        {
            frame.Border(recipe.FullHeight - recipe.BorderPixels + y, line);
            tiff.Write(line);
        }

        tiff.Finish(recipe.Ppi, to.Bytes.ToArray());
    }

    private static ushort[] Fetch(Region region, int y, int width, int height) =>
        MemoryMarshal.Cast<byte, ushort>(region.Fetch(0, y, width, Math.Min(RowsTogether, height - y)).AsSpan()).ToArray();

    // Fills the size and cuts what sticks out, evenly on both sides.
    private static Image Resize(Image image, PrintRecipe recipe)
    {
        var (width, height) = (recipe.PictureWidth, recipe.PictureHeight);
        if (image.Width == width && image.Height == height)
        {
            return image.Copy();
        }

        var scale = Math.Max((double)width / image.Width, (double)height / image.Height);
        using var light = (image / 65535.0).Pow(Linear);
        using var single = light.Cast(Enums.BandFormat.Float);
        // A hair more than needed, so that rounding never leaves a pixel short.
        using var sized = single.Resize(Math.Max(scale, (width + 0.01) / image.Width), kernel: Enums.Kernel.Lanczos3, vscale: Math.Max(scale, (height + 0.01) / image.Height));
        using var cut = sized.Crop(Math.Max(0, (sized.Width - width) / 2), Math.Max(0, (sized.Height - height) / 2), width, height);
        using var above = (cut > 0).Ifthenelse(cut, 0);
        using var codes = above.Pow(1 / Linear) * 65535.0;
        using var whole = codes + 0.5;
        return whole.Cast(Enums.BandFormat.Ushort);
    }

    private static Image Sharpen(Image image, PrintRecipe recipe)
    {
        var sigma = recipe.HaloMm / 25.4 * recipe.Ppi / 4; // the halo is seen about two sigma to either side
        if (recipe.HaloMm <= 0 || recipe.Sharpening <= 0 || sigma < 0.3)
        {
            return image.Copy();
        }

        using var soft = image.Gaussblur(sigma);
        using var detail = image - soft;
        using var more = detail * recipe.Sharpening;
        using var sharp = image + more;
        using var whole = sharp + 0.5;
        return whole.Cast(Enums.BandFormat.Ushort);
    }

    /// <summary>The border: paper, and fine marks to cut along.</summary>
    private sealed class Frame(PrintRecipe recipe, int channels)
    {
        private readonly ushort paper = (ushort)(channels == 4 ? 0 : ushort.MaxValue);
        private readonly bool marks = recipe.TrimMarks && recipe.BorderMm >= LeastBorderForMarksMm;
        private readonly int thick = Math.Max(1, recipe.Pixels(MarkMm));
        private readonly int length = Math.Min(recipe.Pixels(MarkLengthMm), recipe.BorderPixels * 3 / 4);

        public void Sides(Span<ushort> line) => line.Fill(paper);

        public void Border(int y, Span<ushort> line)
        {
            line.Fill(paper);
            if (!marks)
            {
                return;
            }

            var (border, right, bottom) = (recipe.BorderPixels, recipe.FullWidth - recipe.BorderPixels, recipe.FullHeight - recipe.BorderPixels);
            var below = y >= bottom;
            var away = below ? y - bottom : border - 1 - y;
            // Upright strokes beside the picture's corners, ending a little before it.
            if (away >= border / 4 && away < (border / 4) + length)
            {
                Mark(line, border, thick);
                Mark(line, right - thick, thick);
            }
        }

        private void Mark(Span<ushort> line, int from, int count)
        {
            for (var x = Math.Max(0, from); x < Math.Min(recipe.FullWidth, from + count); x++)
            {
                for (var k = 0; k < channels; k++)
                {
                    line[(x * channels) + k] = (ushort)(channels == 4 ? (k == 3 ? ushort.MaxValue : 0) : 0);
                }
            }
        }
    }
}

/// <summary>What was made.</summary>
/// <param name="Width">In pixels, border and all.</param>
/// <param name="Height">In pixels.</param>
/// <param name="Channels">Of the printer.</param>
/// <param name="PicturePpi">How many of the picture's own pixels came on an inch.</param>
public sealed record Prepared(int Width, int Height, int Channels, double PicturePpi);

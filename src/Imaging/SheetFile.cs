using NetVips;

namespace Goodsheet.Imaging;

/// <summary>Prepared prints laid on one sheet or length of roll: one file for the printer, pixel for pixel what was prepared.</summary>
/// <remarks>Row by row: of each print no more than the rows at hand is in memory. One that lies turned is turned by way of a temporary file.</remarks>
public static class SheetFile
{
    // A print may end this many pixels outside, from rounding millimetres to pixels.
    private const int Rounding = 2;

    /// <summary>Writes a sheet. It is there whole, under its name, or not at all.</summary>
    /// <param name="plan">What lies where.</param>
    /// <param name="profile">The profile of the printing condition, for the record in the file; none for a file without.</param>
    /// <param name="output">Where to; what was there is replaced when the new one is whole.</param>
    /// <param name="progress">Told 0 to 1.</param>
    /// <param name="disk">Asked whether there is room; none for this machine's own.</param>
    /// <param name="cancel">Stops it, leaving nothing.</param>
    public static PictureResult<Prepared> Write(
        SheetPlan plan, byte[]? profile, string output, IProgress<double>? progress = null, DiskRoom? disk = null, CancellationToken cancel = default)
    {
        var (width, height) = (plan.Pixels(plan.WidthMm), plan.Pixels(plan.HeightMm));
        if (width < 1 || height < 1 || Math.Max(width, height) > ImageFile.MostSide || plan.Prints.Count == 0)
        {
            return new PictureFault($"A sheet has between 1 and {ImageFile.MostSide} pixels along each side, and a print on it.");
        }

        var coming = output + ".coming";
        var lying = new List<Lying>();
        try
        {
            File.Delete(coming);
            foreach (var print in plan.Prints)
            {
                var probed = ImageFile.Probe(print.Path);
                if (probed.Value is not { } image)
                {
                    return probed.Fault!;
                }

                lying.Add(new(print, image, plan.Pixels(print.XMm), plan.Pixels(print.YMm)));
            }

            var channels = lying[0].Channels;
            if (lying.FirstOrDefault(l => l.Channels != channels) is not null)
            {
                return new PictureFault("The prints of this sheet were prepared for different inks. Prepare them again.");
            }

            if (lying.FirstOrDefault(l => l.Right > width + Rounding || l.Bottom > height + Rounding || l.X < 0 || l.Y < 0) is { } outside)
            {
                return new PictureFault($"A print of {outside.Width} × {outside.Height} pixels does not lie whole on a sheet of {width} × {height}. Prepare its file again.");
            }

            if ((disk ?? DiskRoom.OfThisMachine).Lacks(output, plan.Bytes(channels)) is { } full)
            {
                return full;
            }

            Compose(plan, lying, (width, height, channels), profile, coming, progress, cancel);
            File.Move(coming, output, overwrite: true);
            return new Prepared(width, height, channels, plan.Ppi);
        }
        catch (VipsException e)
        {
            return new PictureFault($"A prepared file is damaged: {ImageFile.FirstLine(e)} Nothing was kept.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new PictureFault($"The sheet's file could not be written: {e.Message} Nothing was kept.");
        }
        finally
        {
            lying.ForEach(l => l.Dispose());
            File.Delete(coming);
        }
    }

    private static void Compose(
        SheetPlan plan, List<Lying> lying, (int Width, int Height, int Channels) size, byte[]? profile, string path, IProgress<double>? progress, CancellationToken cancel)
    {
        using var tiff = new TiffStrips(path, size.Width, size.Height, size.Channels, plan.EightBits);
        var paper = (ushort)(size.Channels == 4 ? 0 : ushort.MaxValue);
        var marks = plan.Marks.Select(m => (X: plan.Pixels(m.XMm), Y: plan.Pixels(m.YMm), Width: Math.Max(1, plan.Pixels(m.WidthMm)), Height: Math.Max(1, plan.Pixels(m.HeightMm)))).ToArray();
        var line = new ushort[size.Width * size.Channels];
        for (var y = 0; y < size.Height; y++)
        {
            if (y % 64 == 0)
            {
                cancel.ThrowIfCancellationRequested();
                progress?.Report((double)y / size.Height);
            }

            line.AsSpan().Fill(paper);
            foreach (var mark in marks)
            {
                if (y >= mark.Y && y < mark.Y + mark.Height)
                {
                    Darken(line, mark.X, mark.Width, size);
                }
            }

            foreach (var print in lying)
            {
                print.CopyRow(y, line, size.Width); // after the marks: nothing is drawn on a print
            }

            tiff.WriteAt(y, line);
        }

        tiff.Finish(plan.Ppi, profile);
    }

    private static void Darken(Span<ushort> line, int from, int count, (int Width, int Height, int Channels) size)
    {
        for (var x = Math.Max(0, from); x < Math.Min(size.Width, from + count); x++)
        {
            var pixel = line.Slice(x * size.Channels, size.Channels);
            if (size.Channels == 4)
            {
                pixel[3] = ushort.MaxValue;
            }
            else
            {
                pixel.Clear();
            }
        }
    }

    /// <summary>One print: its rows come when the sheet reaches it, and its file is closed when they end.</summary>
    private sealed class Lying(LaidPrint print, ImageFile image, int x, int y) : IDisposable
    {
        private PictureRows? rows;
        private ushort[] row = [];

        public int X => x;

        public int Y => y;

        public int Width => print.Turned ? image.Height : image.Width;

        public int Height => print.Turned ? image.Width : image.Height;

        public int Right => x + Width;

        public int Bottom => y + Height;

        public int Channels => image.Channels;

        public void CopyRow(int at, Span<ushort> line, int width)
        {
            if (at < y || at >= Bottom)
            {
                return;
            }

            if (rows is null)
            {
                rows = PictureRows.Open(print.Path, print.Turned);
                row = new ushort[Width * Channels];
            }

            rows.Read(1, row);
            row.AsSpan(0, Math.Min(Width, width - x) * Channels).CopyTo(line[(x * Channels)..]);
            if (at == Bottom - 1)
            {
                Dispose();
            }
        }

        public void Dispose()
        {
            rows?.Dispose();
            rows = null;
        }
    }
}

/// <summary>A sheet, or a length of roll, as the printer will get it.</summary>
/// <param name="WidthMm">Across the feed, what can be printed of it.</param>
/// <param name="HeightMm">Along the feed, what can be printed of it.</param>
/// <param name="Ppi">Of the printer, and of every print.</param>
/// <param name="Prints">Prepared files and where they lie.</param>
/// <param name="Marks">Dark rectangles on bare paper: where to cut, what it is.</param>
/// <param name="EightBits">8 bits a channel, dithered, for a driver that takes no 16.</param>
public sealed record SheetPlan(double WidthMm, double HeightMm, double Ppi, IReadOnlyList<LaidPrint> Prints, IReadOnlyList<SheetMark> Marks, bool EightBits = false)
{
    /// <summary>A length in whole pixels: the nearest, halves up.</summary>
    public int Pixels(double mm) => (int)Math.Floor((mm / 25.4 * Ppi) + 0.5);

    /// <summary>Bytes of the whole file, but for what it carries beside its pixels.</summary>
    public long Bytes(int channels) => DiskRoom.Of(Pixels(WidthMm), Pixels(HeightMm), channels, EightBits);
}

/// <param name="Path">The prepared file.</param>
/// <param name="XMm">Its left edge from the sheet's, in mm.</param>
/// <param name="YMm">Its upper edge from the sheet's leading one, in mm.</param>
/// <param name="Turned">By a quarter, clockwise.</param>
public sealed record LaidPrint(string Path, double XMm, double YMm, bool Turned);

/// <summary>A dark rectangle, in mm from the left and the leading edge.</summary>
public readonly record struct SheetMark(double XMm, double YMm, double WidthMm, double HeightMm);

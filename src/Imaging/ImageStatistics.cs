using Goodsheet.Colour.Icc;

namespace Goodsheet.Imaging;

/// <summary>What a picture's pixels say before it is printed.</summary>
/// <param name="ClippedLow">Per channel, the share of pixels at 0.</param>
/// <param name="ClippedHigh">Per channel, the share of pixels at the highest code.</param>
/// <param name="NeutralShare">The share of pixels that are grey: chroma under 2.</param>
/// <param name="MissedColours">How the print falls short.</param>
/// <param name="Traces">What earlier work has left in the picture.</param>
public sealed record ImageStatistics(
    IReadOnlyList<double> ClippedLow, IReadOnlyList<double> ClippedHigh, double NeutralShare, GamutMisses MissedColours, PictureTraces Traces)
{
    private const int Side = 400;
    private const long EnoughForTraces = 16_000_000; // pixels: of larger pictures every so many rows
    private const double Grey = 2; // C*ab; common practice, no source

    /// <summary>Looks at every pixel for clipped ends, and at the picture made small for its colours.</summary>
    /// <param name="path">The picture's file, read twice from top to bottom.</param>
    /// <param name="printer">The profile it is to be printed with.</param>
    /// <param name="blackPointCompensation">Whether the print is made with it.</param>
    /// <param name="cancel">Stops it.</param>
    public static PictureResult<ImageStatistics> Measure(
        string path, IccProfile printer, bool blackPointCompensation, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(printer);
        return PictureSource.Look(path, from =>
        {
            var test = new GamutTest(from, printer, blackPointCompensation);
            var (low, high, traces) = Clipped(path, cancel);
            var (neutral, misses) = FindMisses(SmallPicture.Read(path, Side), test, cancel);
            return new ImageStatistics(low, high, neutral, misses, traces);
        });
    }

    /// <summary>How the print of a picture falls short on one paper, on the picture made small.</summary>
    /// <param name="path">The picture's file, or a copy of it for the screen.</param>
    /// <param name="printer">The profile it is to be printed with.</param>
    /// <param name="blackPointCompensation">Whether the print is made with it.</param>
    /// <param name="cancel">Stops it.</param>
    public static PictureResult<GamutMisses> Misses(string path, IccProfile printer, bool blackPointCompensation, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(printer);
        return PictureSource.Look(path, from => FindMisses(SmallPicture.Read(path, Side), new(from, printer, blackPointCompensation), cancel).Misses);
    }

    private static (double[] Low, double[] High, PictureTraces Traces) Clipped(string path, CancellationToken cancel)
    {
        using var picture = PictureRows.Open(path);
        var channels = picture.Channels;
        var (low, high) = (new long[channels], new long[channels]);
        var codes = new ushort[picture.Width * channels];
        var traces = new TraceCount(channels);
        var every = Math.Max(1, (int)((long)picture.Width * picture.Height / EnoughForTraces));
        for (var y = 0; y < picture.Height; y++)
        {
            cancel.ThrowIfCancellationRequested();
            picture.Read(1, codes);
            if (y % every == 0)
            {
                traces.Look(codes);
            }

            for (var k = 0; k < channels; k++)
            {
                var (zeros, fulls) = (0, 0);
                for (var i = k; i < codes.Length; i += channels)
                {
                    zeros += codes[i] == 0 ? 1 : 0;
                    fulls += codes[i] == ushort.MaxValue ? 1 : 0;
                }

                low[k] += zeros;
                high[k] += fulls;
            }
        }

        var pixels = (double)picture.Width * picture.Height;
        return ([.. low.Select(n => n / pixels)], [.. high.Select(n => n / pixels)], traces.Found());
    }

    private static (double Neutral, GamutMisses Misses) FindMisses(SmallPicture small, GamutTest test, CancellationToken cancel)
    {
        var missed = new float[small.Width * small.Height];
        var greys = new int[small.Height];
        Parallel.For(0, small.Height, new ParallelOptions { CancellationToken = cancel }, y =>
        {
            Span<double> pixel = stackalloc double[4];
            for (var i = y * small.Width; i < (y + 1) * small.Width; i++)
            {
                small.Pixel(i, pixel);
                var (asked, miss) = test.Of(pixel[..small.Channels]);
                missed[i] = (float)miss.Value;
                greys[y] += asked.Chroma < Grey ? 1 : 0;
            }
        });
        return ((double)greys.Sum() / missed.Length, new(small.Width, small.Height, missed));
    }
}

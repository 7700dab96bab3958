namespace Goodsheet.Imaging;

/// <summary>What earlier work has left in a picture: blocks, grain, missing tones. In codes of 8 bits, which are about even to the eye.</summary>
/// <remarks>Looked for along rows, in the green of RGB and in grey; inks are not looked at.</remarks>
/// <param name="BlockStep">How much higher the step to the next pixel is at every eighth pixel than elsewhere, in even surroundings: what JPEG leaves.</param>
/// <param name="Grain">The standard deviation from pixel to pixel in the evenest quarter of the picture.</param>
/// <param name="TonesUsed">Of the 8-bit codes between the picture's ends, the share that occurs at all; 1 where that says nothing.</param>
public sealed record PictureTraces(double BlockStep, double Grain, double TonesUsed)
{
    /// <summary>Nothing was found, or nothing looked at.</summary>
    public static readonly PictureTraces None = new(0, 0, 1);
}

/// <summary>Counts traces, row by row.</summary>
internal sealed class TraceCount(int channels)
{
    private const float PerCode = 257; // 16-bit codes in a code of 8 bits
    private const int Phases = 8;

    // Even surroundings: the eye sees a step there, and detail does not drown it.
    private const float Even = 4;
    private const float HighestStep = 20;
    private const long FewestSteps = 2_000;

    private const int Stretch = 32; // pixels that grain is measured over
    private const int GrainSteps = 20; // in a code
    private const int MostGrain = 25;

    private const long FewestPixels = 100_000;
    private const double End = 0.005; // of the pixels may lie beyond an end
    private const int NarrowestRange = 64;
    private const double DrawnByHand = 0.9; // so many neighbours alike: no photograph

    private readonly double[] excess = new double[Phases];
    private readonly long[] steps = new long[Phases];
    private readonly int[] grains = new int[MostGrain * GrainSteps];
    private readonly long[] tones = new long[ushort.MaxValue + 1];
    private float[] row = [];
    private long pixels;
    private long alike;

    /// <summary>Looks at a row.</summary>
    public void Look(ReadOnlySpan<ushort> codes)
    {
        if (channels == 4)
        {
            return;
        }

        var width = codes.Length / channels;
        row = row.Length == width ? row : new float[width];
        for (int x = 0, at = channels / 2; x < width; x++, at += channels)
        {
            tones[codes[at]]++;
            row[x] = codes[at] / PerCode;
            alike += x > 0 && row[x] == row[x - 1] ? 1 : 0;
        }

        pixels += width;
        Blocks();
        Grains();
    }

    /// <summary>What was found.</summary>
    public PictureTraces Found() => channels == 4 ? PictureTraces.None : new(BlockStep(), EvenestGrain(), TonesUsed());

    private void Blocks()
    {
        for (var x = 1; x + 2 < row.Length; x++)
        {
            var step = Math.Abs(row[x + 1] - row[x]);
            var around = (Math.Abs(row[x] - row[x - 1]) + Math.Abs(row[x + 2] - row[x + 1])) / 2;
            if (around < Even && step < HighestStep)
            {
                excess[(x + 1) % Phases] += step - around;
                steps[(x + 1) % Phases]++;
            }
        }
    }

    private double BlockStep()
    {
        if (steps.Min() < FewestSteps)
        {
            return 0;
        }

        double[] means = [.. excess.Zip(steps, (sum, count) => sum / count).Order()];
        return means[^1] - means[Phases / 2];
    }

    // The second difference of a slope is nothing, and of noise six times its variance.
    private void Grains()
    {
        for (var start = 1; start + Stretch < row.Length; start += Stretch)
        {
            var (sum, low, high) = (0.0, float.MaxValue, float.MinValue);
            for (var x = start; x < start + Stretch; x++)
            {
                var bend = row[x - 1] - (2 * row[x]) + row[x + 1];
                (sum, low, high) = (sum + (bend * bend), Math.Min(low, row[x]), Math.Max(high, row[x]));
            }

            if (low > 0 && high < byte.MaxValue)
            {
                grains[Math.Min((int)(Math.Sqrt(sum / Stretch / 6) * GrainSteps), grains.Length - 1)]++;
            }
        }
    }

    private double TonesUsed()
    {
        if (pixels < FewestPixels || alike > DrawnByHand * pixels)
        {
            return 1;
        }

        var (low, high) = (EndOf(up: true), EndOf(up: false));
        var range = ((high - low) / PerCode) + 1;
        return range < NarrowestRange ? 1 : Math.Min(1, tones.AsSpan(low, high - low + 1).ToArray().Count(n => n > 0) / range);
    }

    private int EndOf(bool up)
    {
        var (left, at, step) = ((long)(End * pixels), up ? 0 : ushort.MaxValue, up ? 1 : -1);
        while (left >= tones[at])
        {
            left -= tones[at];
            at += step;
        }

        return at;
    }

    private double EvenestGrain()
    {
        var (left, bin) = (grains.Sum() / 4, 0);
        while (left > 0 && left >= grains[bin])
        {
            left -= grains[bin++];
        }

        return bin / (double)GrainSteps;
    }
}

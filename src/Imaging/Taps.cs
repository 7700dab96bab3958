namespace Goodsheet.Imaging;

/// <summary>Which of the old pixels along one side make each of the new ones, and how much each counts.</summary>
internal sealed class Taps
{
    private const int Lobes = 3; // Lanczos 3

    private readonly int[] first;
    private readonly float[][] weights;

    private Taps(int[] first, float[][] weights) => (this.first, this.weights) = (first, weights);

    /// <summary>How many new pixels there are.</summary>
    public int Count => first.Length;

    /// <summary>The first old pixel that counts for a new one.</summary>
    public int First(int pixel) => first[pixel];

    /// <summary>From there on, one weight an old pixel; their sum is 1.</summary>
    public ReadOnlySpan<float> Weights(int pixel) => weights[pixel];

    /// <summary>The old pixel after the last that counts for a new one.</summary>
    public int End(int pixel) => first[pixel] + weights[pixel].Length;

    /// <summary>Lanczos with three lobes, widened when pixels are taken together so that none is left out.</summary>
    /// <remarks>C. E. Duchon, "Lanczos filtering in one and two dimensions", J. Appl. Meteorology 18 (1979), from memory.
    /// Beyond its edge a picture goes on as its edge is.</remarks>
    /// <param name="old">Old pixels on the side.</param>
    /// <param name="made">New pixels on the side.</param>
    /// <param name="scale">New pixels an old one; what sticks out is cut evenly at both ends.</param>
    public static Taps Lanczos(int old, int made, double scale)
    {
        var wide = Math.Max(1, 1 / scale);
        var cut = (old - (made / scale)) / 2;
        return Of(old, made, x => cut + ((x + 0.5) / scale) - 0.5, Lobes * wide, d => Kernel(d / wide));
    }

    /// <summary>A bell around each pixel: a soft picture of the same size.</summary>
    public static Taps Bell(int size, double sigma) => Of(size, size, x => x, 3 * sigma, d => Math.Exp(-d * d / (2 * sigma * sigma)));

    private static Taps Of(int old, int made, Func<int, double> centre, double reach, Func<double, double> kernel)
    {
        var (first, weights) = (new int[made], new float[made][]);
        for (var x = 0; x < made; x++)
        {
            var at = centre(x);
            var (from, to) = ((int)Math.Ceiling(at - reach), (int)Math.Floor(at + reach));
            var (low, high) = (Math.Clamp(from, 0, old - 1), Math.Clamp(to, 0, old - 1));
            var sums = new double[high - low + 1];
            for (var i = from; i <= to; i++)
            {
                sums[Math.Clamp(i, low, high) - low] += kernel(i - at);
            }

            var (start, end) = (0, sums.Length);
            while (end - start > 1 && Math.Abs(sums[start]) < Nothing)
            {
                start++;
            }

            while (end - start > 1 && Math.Abs(sums[end - 1]) < Nothing)
            {
                end--;
            }

            var whole = sums.Sum();
            first[x] = low + start;
            weights[x] = [.. sums[start..end].Select(s => (float)(s / whole))];
        }

        return new(first, weights);
    }

    private const double Nothing = 1e-9;

    private static double Kernel(double d) => Math.Abs(d) < Nothing ? 1
        : Math.Abs(d) >= Lobes ? 0
        : Lobes * Math.Sin(Math.PI * d) * Math.Sin(Math.PI * d / Lobes) / (Math.PI * Math.PI * d * d);
}

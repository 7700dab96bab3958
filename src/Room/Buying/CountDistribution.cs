namespace Goodsheet.Room.Buying;

/// <summary>How much may be wanted in a stretch of time, as chances of whole numbers.</summary>
/// <remarks>
/// From a mean and a variance: negative binomial when the variance is above the mean, as where orders come now and
/// then and each for several sheets; Poisson when they agree; a normal cut into whole numbers when it is below.
/// </remarks>
public sealed class CountDistribution
{
    /// <summary>A mean above this is for the caller to state in a larger unit.</summary>
    public const double MostMean = 600;

    private const double LeftOut = 1e-13;
    private const double Alike = 1e-9;

    private readonly double[] below;
    private readonly double[] shortage;

    private CountDistribution(IEnumerable<double> chances, double mean)
    {
        Chances = [.. chances];
        below = new double[Chances.Count];
        shortage = new double[Chances.Count + 1];
        var sum = 0.0;
        for (var k = 0; k < Chances.Count; k++)
        {
            below[k] = sum += Chances[k];
        }

        Mean = mean;
        shortage[0] = mean;
        for (var k = 0; k < Chances.Count; k++)
        {
            shortage[k + 1] = Math.Max(0, shortage[k] - (1 - below[k]));
        }
    }

    public static CountDistribution None { get; } = new([1.0], 0);

    public double Mean { get; }

    /// <summary>Of 0, 1, 2 ...; what is left out is below 1e-13.</summary>
    public IReadOnlyList<double> Chances { get; }

    public static CountDistribution Of(double mean, double variance)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(mean);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(mean, MostMean);
        if (mean < Alike)
        {
            return None;
        }

        return variance < mean * (1 - Alike) ? new(CutNormal(mean, Math.Sqrt(Math.Max(variance, Alike))), mean)
            : variance < mean * (1 + Alike) ? Poisson(mean)
            : new(NegativeBinomial(mean, variance), mean);
    }

    public static CountDistribution Poisson(double mean)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(mean, MostMean);
        return mean < Alike ? None : new(Climb(Math.Exp(-mean), k => mean / (k + 1), mean), mean);
    }

    /// <summary>A normal distribution cut into whole numbers, nothing below 0; the way published examples do it.</summary>
    public static IEnumerable<double> CutNormal(double mean, double deviation)
    {
        var last = (int)Math.Ceiling(mean + (8 * deviation) + 1);
        for (var k = 0; k <= last; k++)
        {
            var lower = k == 0 ? 0 : Normal.Below((k - 0.5 - mean) / deviation);
            yield return Normal.Below((k + 0.5 - mean) / deviation) - lower;
        }
    }

    /// <summary>The chance that at most this is wanted.</summary>
    public double Below(long k) => k < 0 ? 0 : k >= below.Length ? 1 : below[k];

    /// <summary>What is short on average when this much is there: E[(D − y)+].</summary>
    public double Shortage(long y) => y < 0 ? Mean - y : y < shortage.Length ? shortage[y] : 0;

    private static List<double> NegativeBinomial(double mean, double variance)
    {
        var r = mean * mean / (variance - mean);
        var none = r * Math.Log(r / (r + mean));
        return Climb(Math.Exp(none), k => (k + r) / (k + 1) * (mean / (r + mean)), mean);
    }

    private static List<double> Climb(double none, Func<int, double> factor, double mean)
    {
        var chances = new List<double> { none };
        var (sum, next) = (none, none);
        while (sum < 1 - LeftOut)
        {
            next *= factor(chances.Count - 1);
            chances.Add(next);
            sum += next;
            if (next < LeftOut * 1e-3 && chances.Count > mean)
            {
                break;
            }
        }

        return chances;
    }
}

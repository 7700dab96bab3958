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

    /// <summary>1 / k: a product is quicker than a quotient, and a room that is run forward asks for millions.</summary>
    private static readonly double[] Parts = [.. Enumerable.Range(0, 4_096).Select(k => 1.0 / k)];

    /// <summary>Where chances are climbed before it is known how many there are; one for each thread.</summary>
    [ThreadStatic]
    private static double[]? climbed;

    private readonly double[] chances;
    private readonly double[] shortage;
    private readonly double[] below;

    private CountDistribution(double[] chances, double mean)
    {
        (this.chances, Mean) = (chances, mean);
        (below, shortage) = (new double[chances.Length], new double[chances.Length + 1]);
        var (sum, left) = (0.0, mean);
        for (var k = 0; k < chances.Length; k++)
        {
            shortage[k] = left;
            below[k] = sum += chances[k];
            left = Math.Max(0, left - (1 - sum));
        }

        shortage[^1] = left;
    }

    public static CountDistribution None { get; } = new([1.0], 0);

    public double Mean { get; }

    public double Variance
    {
        get
        {
            var sum = 0.0;
            for (var k = 0; k < chances.Length; k++)
            {
                sum += chances[k] * (k - Mean) * (k - Mean);
            }

            return sum;
        }
    }

    /// <summary>Of 0, 1, 2 ...; what is left out is below 1e-13.</summary>
    public IReadOnlyList<double> Chances => chances;

    public static CountDistribution Of(double mean, double variance)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(mean);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(mean, MostMean);
        if (mean < Alike)
        {
            return None;
        }

        return variance < mean * (1 - Alike) ? new([.. CutNormal(mean, Math.Sqrt(Math.Max(variance, Alike)))], mean)
            : variance < mean * (1 + Alike) ? Poisson(mean)
            : new(NegativeBinomial(mean, variance), mean);
    }

    public static CountDistribution Poisson(double mean)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(mean, MostMean);
        return mean < Alike ? None : new(Climb(Math.Exp(-mean), mean, 0, mean), mean);
    }

    /// <summary>A normal distribution cut into whole numbers, nothing below 0; the way published examples do it.</summary>
    public static IEnumerable<double> CutNormal(double mean, double deviation)
    {
        var last = (int)Math.Ceiling(mean + (8 * deviation) + 1);
        var lower = 0.0;
        for (var k = 0; k <= last; k++)
        {
            var upper = Normal.Below((k + 0.5 - mean) / deviation);
            yield return upper - lower;
            lower = upper;
        }
    }

    /// <summary>The chance that at most this is wanted.</summary>
    public double Below(long k) => k < 0 ? 0 : k >= chances.Length ? 1 : below[k];

    /// <summary>What is short on average when this much is there: E[(D − y)+].</summary>
    public double Shortage(long y) => y < 0 ? Mean - y : y < shortage.Length ? shortage[y] : 0;

    private static double[] NegativeBinomial(double mean, double variance)
    {
        var r = mean * mean / (variance - mean);
        var q = mean / (r + mean);
        return Climb(Math.Exp(r * Math.Log(r / (r + mean))), r * q, q, mean);
    }

    /// <summary>From the chance of none upwards, each from the one before: p(k + 1) = p(k) (a + b k) / (k + 1).</summary>
    private static double[] Climb(double none, double a, double b, double mean)
    {
        var room = climbed ??= new double[1_024];
        var (sum, next, count) = (none, none, 1);
        room[0] = none;
        while (sum < 1 - LeftOut)
        {
            next *= (a + (b * (count - 1))) * (count < Parts.Length ? Parts[count] : 1.0 / count);
            if (count == room.Length)
            {
                Array.Resize(ref room, 2 * count);
                climbed = room;
            }

            room[count++] = next;
            sum += next;
            if (next < LeftOut * 1e-3 && count > mean)
            {
                break;
            }
        }

        return room[..count];
    }
}

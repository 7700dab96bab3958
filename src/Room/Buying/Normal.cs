namespace Goodsheet.Room.Buying;

/// <summary>The standard normal distribution.</summary>
public static class Normal
{
    /// <summary>Beyond this many standard deviations the series loses digits and the continued fraction is short.</summary>
    private const double SeriesEnds = 3;

    private const double Smallest = 1e-300;

    public static double Density(double x) => Math.Exp(-x * x / 2) / Math.Sqrt(2 * Math.PI);

    /// <summary>The chance of at most x.</summary>
    /// <remarks>Series of Marsaglia, J. Stat. Software 11(4), 2004, near the middle; continued fraction in the tails; both from memory.</remarks>
    public static double Below(double x) => x switch
    {
        > SeriesEnds => 1 - Tail(x),
        < -SeriesEnds => Tail(-x),
        _ => 0.5 + (Density(x) * Series(x)),
    };

    /// <summary>The chance of more than x.</summary>
    public static double Above(double x) => Below(-x);

    /// <summary>What is short on average when x was stocked: E[(Z − x)+].</summary>
    public static double Loss(double x) => Density(x) - (x * Above(x));

    /// <summary>The x that has this chance of at most it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0 and 1.</exception>
    public static double Quantile(double chance)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(chance, 0);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(chance, 1);
        if (chance > 0.5)
        {
            return -Quantile(1 - chance);
        }

        // Abramowitz and Stegun 26.2.23 (from memory) is good to 5e-4; two steps of Halley's method to all digits.
        var t = Math.Sqrt(-2 * Math.Log(chance));
        var x = -(t - ((2.515517 + (t * (0.802853 + (t * 0.010328)))) / (1 + (t * (1.432788 + (t * (0.189269 + (t * 0.001308))))))));
        for (var i = 0; i < 3; i++)
        {
            var step = (Below(x) - chance) / Density(x);
            x -= step / (1 + (x * step / 2));
        }

        return x;
    }

    private static double Series(double x)
    {
        var (sum, term) = (x, x);
        for (var k = 3; Math.Abs(term) > Math.Abs(sum) * 1e-17; k += 2)
        {
            term *= x * x / k;
            sum += term;
        }

        return sum;
    }

    // φ(x) / (x + 1/(x + 2/(x + 3/(x + ...)))), by the method of Lentz.
    private static double Tail(double x)
    {
        var (f, c, d) = (x, x, 0.0);
        for (var k = 1; k < 200; k++)
        {
            d = 1 / Math.Max(Smallest, x + (k * d));
            c = x + (k / c);
            f *= c * d;
            if (Math.Abs((c * d) - 1) < 1e-16)
            {
                break;
            }
        }

        return Density(x) / f;
    }
}

namespace Goodsheet.Room.Buying;

/// <summary>What is wanted in a period, for items that are wanted now and then.</summary>
/// <remarks>
/// Croston, Oper. Res. Quarterly 23(3), 1972: size and interval smoothed apart. SBA: Syntetos, Boylan, Int. J. Forecasting 21(2),
/// 2005, takes its bias off. TSB: Teunter, Syntetos, Babai, EJOR 214(3), 2011, smooths the chance instead, so that an item
/// nobody wants any more fades. All from memory; their values on a published series are in the tests.
/// </remarks>
public static class SporadicDemand
{
    public static double Croston(ReadOnlySpan<double> periods, double alpha)
    {
        var (size, interval) = (0.0, 0.0);
        var since = 1;
        foreach (var wanted in periods)
        {
            if (wanted <= 0)
            {
                since++;
                continue;
            }

            (size, interval) = interval == 0 ? (wanted, since) : (size + (alpha * (wanted - size)), interval + (alpha * (since - interval)));
            since = 1;
        }

        return interval == 0 ? 0 : size / interval;
    }

    public static double SyntetosBoylan(ReadOnlySpan<double> periods, double alpha) => (1 - (alpha / 2)) * Croston(periods, alpha);

    /// <remarks>The chance begins as the part of the periods with demand, the size as the first.</remarks>
    public static double TeunterSyntetosBabai(ReadOnlySpan<double> periods, double alpha, double beta)
    {
        var (count, size, begun) = (0, 0.0, false);
        foreach (var wanted in periods)
        {
            count += wanted > 0 ? 1 : 0;
        }

        if (count == 0)
        {
            return 0;
        }

        var chance = (double)count / periods.Length;
        for (var at = 0; at < periods.Length; at++)
        {
            var wanted = periods[at];
            chance += at == 0 ? 0 : beta * ((wanted > 0 ? 1 : 0) - chance);
            if (wanted > 0)
            {
                (size, begun) = (begun ? size + (alpha * (wanted - size)) : wanted, true);
            }
        }

        return size * chance;
    }
}

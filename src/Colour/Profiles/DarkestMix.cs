namespace Goodsheet.Colour.Profiles;

/// <summary>The black of four inks: the mix within the ink limit that is nearest to neutral at L* 0, chroma counting half.</summary>
/// <remarks>Among dark mixes a table of measurements is nearly flat and full of kinks, where a search by slopes stops anywhere. This one
/// goes by steps, of one ink or of one for another, from many mixes.</remarks>
internal static class DarkestMix
{
    private const int Starts = 12;
    private const int StartPoints = 7; // along each ink
    private const double FirstStep = 0.25;
    private const double LeastStep = 1e-3;
    private const double Exact = 1e-6; // of L* squared: a gain that is none

    /// <summary>Finds it.</summary>
    /// <param name="lattice">A printing condition of four inks.</param>
    /// <param name="limit">The most ink of all together, 1 an ink; 2 or more.</param>
    /// <param name="device">Filled with the mix, each ink 0 to 1.</param>
    public static void Find(DeviceLattice lattice, double limit, Span<double> device)
    {
        var starts = Enumerable.Range(0, StartPoints * StartPoints * StartPoints * StartPoints).Select(Start)
            .Where(mix => Sum(mix) <= limit).OrderBy(mix => Off(lattice, mix)).Take(Starts);
        var least = double.MaxValue;
        foreach (var at in starts)
        {
            var off = Descend(lattice, limit, at);
            if (off < least)
            {
                least = off;
                at.CopyTo(device);
            }
        }
    }

    private static double[] Start(int i) =>
    [
        .. new[] { i / (StartPoints * StartPoints * StartPoints), i / (StartPoints * StartPoints), i / StartPoints, i }
            .Select(n => n % StartPoints / (StartPoints - 1.0)),
    ];

    private static double Descend(DeviceLattice lattice, double limit, double[] at)
    {
        Span<double> next = stackalloc double[4];
        var here = Off(lattice, at);
        for (var step = FirstStep; step > LeastStep;)
        {
            var before = here;
            for (var move = 0; move < 5 * 5; move++)
            {
                // Of one ink more by a step, of another less by it; the fifth is no ink.
                var (more, less) = (move / 5, move % 5);
                at.CopyTo(next);
                if (more < 4)
                {
                    next[more] = Math.Min(1, next[more] + step);
                }

                if (less < 4)
                {
                    next[less] = Math.Max(0, next[less] - step);
                }

                if (more != less && Sum(next) <= limit && Off(lattice, next) is var there && there < here - Exact)
                {
                    here = there;
                    next.CopyTo(at);
                }
            }

            step = here < before ? step : step / 2;
        }

        return here;
    }

    private static double Off(DeviceLattice lattice, ReadOnlySpan<double> device)
    {
        Span<double> lab = stackalloc double[3];
        lattice.Evaluate(device, lab);
        return (lab[0] * lab[0]) + (((lab[1] * lab[1]) + (lab[2] * lab[2])) / 4);
    }

    private static double Sum(ReadOnlySpan<double> device) => device[0] + device[1] + device[2] + device[3];
}

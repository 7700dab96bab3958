using Goodsheet.Colour.Difference;

namespace Goodsheet.Colour.Papers;

/// <summary>How a print's colour settles while it dries: dE(t) = a(1 − exp(−t/tau)).</summary>
/// <param name="First">Hours after printing of the first reading, from which the differences count.</param>
/// <param name="Whole">a: how far the colour moves in all after the first reading.</param>
/// <param name="Tau">Hours in which 63 % of it is done.</param>
/// <remarks>A simple relaxation; common practice, no source.</remarks>
public sealed record DryDown(double First, DeltaE00 Whole, double Tau)
{
    private const double ShortestTau = 0.02; // hours
    private const double LongestTau = 200;
    private const int Steps = 400;

    /// <summary>Fits the curve by least squares.</summary>
    /// <param name="readings">Hours after printing, and how far the colour is from the first reading; the first itself with 0.
    /// In order of time.</param>
    /// <returns>Null with fewer than three readings: two say how far it moved, not how fast.</returns>
    public static DryDown? Fit(IReadOnlyList<(double Hours, DeltaE00 Moved)> readings)
    {
        if (readings.Count < 3 || readings[^1].Hours <= readings[0].Hours)
        {
            return null;
        }

        var first = readings[0].Hours;
        var best = (Error: double.MaxValue, A: 0.0, Tau: 0.0);
        for (var i = 0; i <= Steps; i++)
        {
            var tau = ShortestTau * Math.Pow(LongestTau / ShortestTau, (double)i / Steps);
            var (up, down) = (0.0, 0.0);
            foreach (var (hours, moved) in readings)
            {
                var shape = 1 - Math.Exp(-(hours - first) / tau);
                (up, down) = (up + (shape * moved.Value), down + (shape * shape));
            }

            var a = down > 0 ? up / down : 0;
            var error = readings.Sum(r => Math.Pow(r.Moved.Value - (a * (1 - Math.Exp(-(r.Hours - first) / tau))), 2));
            best = error < best.Error ? (error, a, tau) : best;
        }

        return new(first, new(best.A), best.Tau);
    }

    /// <summary>How far the colour is from the first reading, at so many hours after printing.</summary>
    public DeltaE00 At(double hours) => new(Whole.Value * (1 - Math.Exp(-Math.Max(0, hours - First) / Tau)));

    /// <summary>Hours after printing from which no more than the noise is still to come.</summary>
    /// <param name="noise">What a reading repeats to.</param>
    public double SettledAfter(DeltaE00 noise) =>
        First + (Whole.Value <= noise.Value ? 0 : Tau * Math.Log(Whole.Value / noise.Value));
}

using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Charts;

/// <summary>Picks device values one after another, each as far from all before as can be, in warped device space.</summary>
/// <remarks>In L*a*b* the darks would starve; the warp is the printer model's own: finer near both ends of a channel.</remarks>
internal sealed class FarthestPoint
{
    // The exponents of the printer models.
    private static readonly (double A, double B) Inks = (0.8, 0.8);
    private static readonly (double A, double B) Light = (0.52, 0.70);

    private readonly double[][] candidates;
    private readonly double[][] warped;
    private readonly double[] away;
    private readonly bool inks;

    /// <param name="candidates">What may be picked.</param>
    /// <param name="inks">Whether 0 is paper: CMYK.</param>
    public FarthestPoint(double[][] candidates, bool inks)
    {
        (this.candidates, this.inks) = (candidates, inks);
        warped = [.. candidates.Select(Warped)];
        away = new double[candidates.Length];
        Array.Fill(away, double.MaxValue);
    }

    /// <summary>Takes one that is there already into account.</summary>
    public void Note(double[] device)
    {
        var here = Warped(device);
        for (var i = 0; i < away.Length; i++)
        {
            away[i] = Math.Min(away[i], Squared(here, warped[i]));
        }
    }

    /// <summary>The next, and takes it into account.</summary>
    /// <param name="weights">How much the distance of each counts; none for all alike.</param>
    public double[] Next(double[]? weights = null)
    {
        var (best, most) = (0, double.MinValue);
        for (var i = 0; i < away.Length; i++)
        {
            var score = weights is null ? away[i] : Math.Sqrt(away[i]) * weights[i];
            if (score > most)
            {
                (best, most) = (i, score);
            }
        }

        Note(candidates[best]);
        return candidates[best];
    }

    /// <summary>The distance of two device values, 0 to about the root of their channels.</summary>
    public static double Between(ReadOnlySpan<double> one, ReadOnlySpan<double> other, bool inks) =>
        Math.Sqrt(Squared(Warped(one, inks), Warped(other, inks)));

    /// <summary>The device value of a place in warped space, 0 to 1: evenly spread places make evenly spread candidates.</summary>
    public static double Unwarped(double place, bool inks)
    {
        var (a, b) = inks ? Inks : Light;
        var value = Math.Pow(1 - Math.Pow(1 - place, 1 / b), 1 / a);
        return inks ? 1 - value : value;
    }

    private double[] Warped(double[] device) => Warped(device, inks);

    private static double[] Warped(ReadOnlySpan<double> device, bool inks)
    {
        var to = new double[device.Length];
        for (var i = 0; i < to.Length; i++)
        {
            var (a, b) = inks ? Inks : Light;
            to[i] = KernelForm.Warp(inks ? 1 - device[i] : device[i], a, b);
        }

        return to;
    }

    private static double Squared(double[] one, double[] other)
    {
        var sum = 0.0;
        for (var i = 0; i < one.Length; i++)
        {
            sum += (one[i] - other[i]) * (one[i] - other[i]);
        }

        return sum;
    }
}

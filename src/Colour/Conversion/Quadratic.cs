namespace Goodsheet.Colour.Conversion;

/// <summary>A parabola by least squares.</summary>
internal static class Quadratic
{
    private const double Flat = 1e-10;

    /// <summary>Where y = c + b x + a x² is zero on its rising side, within 0 and <paramref name="most"/>; 0 where it
    /// is nowhere zero, or the points are too few.</summary>
    public static double Root(IReadOnlyList<(double X, double Y)> points, double most)
    {
        if (points.Count < 4)
        {
            return 0;
        }

        // Normal equations: sums of the powers 0 to 4.
        Span<double> s = stackalloc double[5];
        Span<double> t = stackalloc double[3];
        foreach (var (x, y) in points)
        {
            for (var (i, power) = (0, 1.0); i < 5; i++, power *= x)
            {
                s[i] += power;
                if (i < 3)
                {
                    t[i] += power * y;
                }
            }
        }

        if (new Icc.Matrix3(s[0], s[1], s[2], s[1], s[2], s[3], s[2], s[3], s[4]).Inverse() is not { } inverse)
        {
            return 0;
        }

        Span<double> fit = stackalloc double[3];
        inverse.Apply(t, fit);
        var (c, b, a) = (fit[0], fit[1], fit[2]);
        if (Math.Abs(a) < Flat)
        {
            return b == 0 ? 0 : Math.Clamp(-c / b, 0, most);
        }

        var d = (b * b) - (4 * a * c);
        return d <= 0 ? 0 : Math.Clamp((-b + Math.Sqrt(d)) / (2 * a), 0, most);
    }
}

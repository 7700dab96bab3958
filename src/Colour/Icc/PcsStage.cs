namespace Goodsheet.Colour.Icc;

/// <summary>Between L*a*b* and XYZ under the D50 of the connection space (CIE 15:2018, 8.2.1, its inverse in annex).</summary>
/// <param name="From">Lab or XYZ.</param>
/// <param name="To">The other one.</param>
public sealed record PcsStage(ColourSpace From, ColourSpace To) : Stage
{
    private const double Knee = 24.0 / 116;
    private const double Slope = 841.0 / 108;

    /// <inheritdoc/>
    public override int Inputs => 3;

    /// <inheritdoc/>
    public override int Outputs => 3;

    /// <summary>L*a*b* of an XYZ.</summary>
    public static void ToLab(ReadOnlySpan<double> xyz, Span<double> lab)
    {
        var white = XyzNumber.D50;
        var (x, y, z) = (F(xyz[0] / white.X), F(xyz[1] / white.Y), F(xyz[2] / white.Z));
        (lab[0], lab[1], lab[2]) = ((116 * y) - 16, 500 * (x - y), 200 * (y - z));
    }

    /// <summary>XYZ of an L*a*b*.</summary>
    public static void ToXyz(ReadOnlySpan<double> lab, Span<double> xyz)
    {
        var white = XyzNumber.D50;
        var y = (lab[0] + 16) / 116;
        var (x, z) = (y + (lab[1] / 500), y - (lab[2] / 200));
        (xyz[0], xyz[1], xyz[2]) = (white.X * Cube(x), white.Y * Cube(y), white.Z * Cube(z));
    }

    /// <inheritdoc/>
    public override void Apply(ReadOnlySpan<double> from, Span<double> to)
    {
        if (From == To)
        {
            from.CopyTo(to);
        }
        else if (To == ColourSpace.Lab)
        {
            ToLab(from, to);
        }
        else
        {
            ToXyz(from, to);
        }
    }

    private static double F(double t) => t > Knee * Knee * Knee ? Math.Cbrt(t) : (Slope * t) + (16.0 / 116);

    private static double Cube(double f) => f > Knee ? f * f * f : (f - (16.0 / 116)) / Slope;
}

using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Printer;

/// <summary>Numbers of the RGB model: see docs/decisions/0021, 0400 and 0406.</summary>
internal sealed class RgbForm : KernelForm
{
    private const double WarpA = 0.52;
    private const double WarpB = 0.70;
    private const double LengthRed = 0.52;
    private const double LengthGreen = 0.46;
    private const double LengthBlue = 0.55;
    private const double LengthMax = 1.1;
    private const double RidgeLength = 0.2;
    private const double RidgeWidth = 0.035;

    public override int Channels => 3;

    public override int FeatureCount => 4;

    public override double Noise => 0.004;

    /// <summary>More in the darks, where texture is coarser; a little more with chroma.</summary>
    public override double NoiseShape(Lab colour) => (1 + (colour.Chroma / 120)) * (1 + (4 * Math.Exp(-colour.L / 15)));

    public override double RidgeVariance => 0.02;

    public override double RidgeCorrelation(double apart)
    {
        var s = Math.Sqrt(5) * apart / RidgeLength;
        return (1 + s + (s * s / 3)) * Math.Exp(-s);
    }

    public override bool HasDriver => true;

    public override void Features(ReadOnlySpan<double> device, Span<double> features)
    {
        var (r, g, b) = (Warped(device[0]), Warped(device[1]), Warped(device[2]));
        features[0] = r / LengthRed;
        features[1] = g / LengthGreen;
        features[2] = b / LengthBlue;
        features[3] = Math.Max(r, Math.Max(g, b)) / LengthMax;
    }

    /// <summary>A channel as the model sees it, 0 to 1.</summary>
    public static double Warped(double channel) => Warp(channel, WarpA, WarpB);

    public override double AlongGreys(ReadOnlySpan<double> device) =>
        (Warped(device[0]) + Warped(device[1]) + Warped(device[2])) / 3;

    public override double Greyness(ReadOnlySpan<double> device)
    {
        var spread = Math.Max(device[0], Math.Max(device[1], device[2])) - Math.Min(device[0], Math.Min(device[1], device[2]));
        return Math.Exp(-(spread / RidgeWidth) * (spread / RidgeWidth));
    }
}

using Goodsheet.Colour.Printer;

namespace Goodsheet.Bench.Colour;

/// <summary>The numbers of the reference that the printer model began with: its check values tell whether the arithmetic still stands.</summary>
internal sealed class ReferenceForm : KernelForm
{
    private readonly RgbForm now = new();

    public override int Channels => 3;

    public override int FeatureCount => now.FeatureCount;

    public override double Noise => now.Noise;

    public override double RidgeVariance => 0.005;

    public override void Features(ReadOnlySpan<double> device, Span<double> features) => now.Features(device, features);

    public override double AlongGreys(ReadOnlySpan<double> device) => (device[0] + device[1] + device[2]) / 3;

    // Matern 3/2 of length .16.
    public override double RidgeCorrelation(double apart)
    {
        var u = Math.Sqrt(3) * apart / 0.16;
        return (1 + u) * Math.Exp(-u);
    }

    public override double Greyness(ReadOnlySpan<double> device)
    {
        var spread = Math.Max(device[0], Math.Max(device[1], device[2])) - Math.Min(device[0], Math.Min(device[1], device[2]));
        return Math.Exp(-(spread / 0.06) * (spread / 0.06));
    }
}

namespace Goodsheet.Colour.Printer;

/// <summary>Numbers of the model of one grey channel: those of a single channel of the RGB model.</summary>
internal sealed class GreyForm : KernelForm
{
    private const double WarpA = 0.52;
    private const double WarpB = 0.70;
    private const double Length = 0.5;

    public override int Channels => 1;

    public override int FeatureCount => 1;

    public override double Noise => 0.002;

    public override int QuadraticFrom => 6;

    public override void Features(ReadOnlySpan<double> device, Span<double> features) =>
        features[0] = Warp(device[0], WarpA, WarpB) / Length;
}

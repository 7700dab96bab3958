namespace Goodsheet.Colour.Printer;

/// <summary>A smooth process on the plain RGB values: no warp, no ridge along the greys.</summary>
/// <remarks>Worse on unseen patches than <see cref="RgbForm"/> and rounder at the corners, but the same for every printer:
/// volumes of papers that are stated elsewhere come out of it (see docs/decisions/0270).</remarks>
internal sealed class PlainForm : KernelForm
{
    private const double Length = 0.5;

    public override int Channels => 3;

    public override int FeatureCount => 3;

    public override double Noise => 0.004;

    public override void Features(ReadOnlySpan<double> device, Span<double> features)
    {
        for (var i = 0; i < 3; i++)
        {
            features[i] = device[i] / Length;
        }
    }
}

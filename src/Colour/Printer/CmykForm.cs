namespace Goodsheet.Colour.Printer;

/// <summary>Numbers of the CMYK model, found on half of one standard printing condition and tried on the other half and on another condition.</summary>
internal sealed class CmykForm : KernelForm
{
    private const double WarpA = 0.8;
    private const double WarpB = 0.8;
    private const double LengthInk = 1.1;
    private const double LengthBlack = 0.9;

    public override int Channels => 4;

    public override int FeatureCount => 4;

    public override double Noise => 0.0002;

    public override void Features(ReadOnlySpan<double> device, Span<double> features)
    {
        for (var i = 0; i < 4; i++)
        {
            features[i] = Warp(1 - device[i], WarpA, WarpB) / (i == 3 ? LengthBlack : LengthInk);
        }
    }
}

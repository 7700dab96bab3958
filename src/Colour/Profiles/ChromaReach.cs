using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Gamut;

namespace Goodsheet.Colour.Profiles;

/// <summary>How much chroma a condition reaches at each lightness and hue, smoothed: what the perceptual intent draws in to.</summary>
/// <remarks>Lightness, chroma and hue are those of <see cref="HueLinear"/>, so that drawing in does not turn blue into violet.</remarks>
internal sealed class ChromaReach
{
    private const int Levels = 26;
    private const int Hues = 72;
    private const int Samples = 41;
    private const double Least = 2; // never divide by a point

    private readonly double[,] reach = new double[Levels, Hues];

    public ChromaReach(DeviceLattice lattice)
    {
        Span<double> device = stackalloc double[4];
        Span<double> lab = stackalloc double[3];
        var n = lattice.Channels;
        device = device[..n];
        for (var axis = 0; axis < 3; axis++)
        {
            for (var end = 0; end < 2; end++)
            {
                for (var i = 0; i < Samples * Samples; i++)
                {
                    device.Clear();
                    device[axis] = end;
                    device[(axis + 1) % 3] = i / Samples / (Samples - 1.0);
                    device[(axis + 2) % 3] = i % Samples / (Samples - 1.0);
                    lattice.Evaluate(device, lab);
                    Note(new(lab[0], lab[1], lab[2]));
                }
            }
        }

        Fill();
        Smooth();
        Smooth();
    }

    /// <summary>The chroma reached, above 0.</summary>
    public double At(double lightness, double hueDegrees)
    {
        var l = Math.Clamp(lightness / 100, 0, 1) * (Levels - 1);
        var h = hueDegrees / 360 * Hues;
        var (l0, h0) = (Math.Min((int)l, Levels - 2), (int)Math.Floor(h));
        var (fl, fh) = (l - l0, h - h0);
        var (a, b) = (((h0 % Hues) + Hues) % Hues, (((h0 + 1) % Hues) + Hues) % Hues);
        var value = ((1 - fl) * (((1 - fh) * reach[l0, a]) + (fh * reach[l0, b]))) + (fl * (((1 - fh) * reach[l0 + 1, a]) + (fh * reach[l0 + 1, b])));
        return Math.Max(Least, value);
    }

    private void Note(Lab colour)
    {
        var (i, p, t) = HueLinear.From(colour);
        var l = (int)Math.Round(Math.Clamp(i / 100, 0, 1) * (Levels - 1));
        var h = (int)Math.Round(((Math.Atan2(t, p) / Math.Tau) + 1) * Hues) % Hues;
        reach[l, h] = Math.Max(reach[l, h], double.Hypot(p, t));
    }

    // Where no sample fell, what its neighbours in hue reach.
    private void Fill()
    {
        for (var l = 0; l < Levels; l++)
        {
            for (var h = 0; h < Hues; h++)
            {
                for (var d = 1; d < Hues / 2 && reach[l, h] == 0; d++)
                {
                    reach[l, h] = Math.Max(reach[l, (h + d) % Hues], reach[l, (h - d + Hues) % Hues]);
                }
            }
        }
    }

    private void Smooth()
    {
        var before = (double[,])reach.Clone();
        for (var l = 0; l < Levels; l++)
        {
            for (var h = 0; h < Hues; h++)
            {
                var (sum, count) = (0.0, 0);
                for (var dl = Math.Max(0, l - 1); dl <= Math.Min(Levels - 1, l + 1); dl++)
                {
                    for (var dh = -1; dh <= 1; dh++)
                    {
                        sum += before[dl, (h + dh + Hues) % Hues];
                        count++;
                    }
                }

                reach[l, h] = sum / count;
            }
        }
    }
}

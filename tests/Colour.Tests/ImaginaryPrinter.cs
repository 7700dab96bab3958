using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests;

/// <summary>An invented printer without noise: three or four inks that mix by Neugebauer's rule with dot gain.</summary>
/// <param name="channels">1 grey, 3 RGB, 4 CMYK.</param>
/// <param name="haze">Light that the surface adds to all colours: 0.2 of 100 on a gloss paper, 2 on a matte one.</param>
/// <param name="gain">How much more its dots grow than on the usual paper.</param>
internal sealed class ImaginaryPrinter(int channels, double haze = 0.2, double gain = 1) : IPrinterModel
{
    // XYZ of the inks alone on an invented paper, and how each ink's dots grow.
    private static readonly Xyz[] Inks = [new(14, 22, 58), new(34, 17, 14), new(66, 74, 8), new(2.2, 2.3, 1.9)];
    private static readonly double[] Gain = [0.62, 0.66, 0.7, 0.6];
    private static readonly Xyz Paper = new(84.5, 88, 70.5);

    public int Channels => channels;

    public void Predict(ReadOnlySpan<double> device, Span<double> lab)
    {
        Span<double> ink = stackalloc double[4];
        for (var row = 0; row < device.Length / channels; row++)
        {
            ink.Clear();
            for (var i = 0; i < 4; i++)
            {
                ink[i] = channels switch
                {
                    1 => i == 3 ? 1 - device[row] : 0,
                    3 => i < 3 ? 1 - device[(3 * row) + i] : 0,
                    _ => device[(4 * row) + i],
                };
                ink[i] = Math.Pow(ink[i], Gain[i] * gain) * 0.98;
            }

            var (x, y, z) = (0.0, 0.0, 0.0);
            for (var corner = 0; corner < 16; corner++)
            {
                var (weight, cx, cy, cz) = (1.0, Paper.X, Paper.Y, Paper.Z);
                for (var i = 0; i < 4; i++)
                {
                    var has = (corner & (1 << i)) != 0;
                    weight *= has ? ink[i] : 1 - ink[i];
                    if (has)
                    {
                        (cx, cy, cz) = (cx * Inks[i].X / Paper.X, cy * Inks[i].Y / Paper.Y, cz * Inks[i].Z / Paper.Z);
                    }
                }

                (x, y, z) = (x + (weight * cx), y + (weight * cy), z + (weight * cz));
            }

            var colour = new Xyz(x + haze, y + haze, z + haze).ToLab(Xyz.PcsD50);
            (lab[3 * row], lab[(3 * row) + 1], lab[(3 * row) + 2]) = (colour.L, colour.A, colour.B);
        }
    }
}

using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Printer;

/// <summary>A halftone printer of cyan, magenta, yellow and black by the spectral Neugebauer equations with Yule and Nielsen's n.</summary>
/// <remarks>
/// The sheet is a mosaic of the sixteen overprints of solid inks, each covering what Demichel's equations give; spectra
/// are averaged as their n-th roots, since light spreads in the paper. H. E. J. Neugebauer, "Die theoretischen
/// Grundlagen des Mehrfarbendrucks", 1937; J. A. S. Viggiano, "Modeling the color of multi-colored halftones", 1990
/// (from memory). Dots grow by 4 g a (1 − a), the parabola that is g at half coverage. Cellular division, and inks
/// that spread otherwise over each other, are left out.
/// </remarks>
public sealed class NeugebauerPrinter : IPrinterModel
{
    /// <summary>The inks: cyan, magenta, yellow, black.</summary>
    public const int Inks = 4;

    /// <summary>Overprints of the inks, the bare paper among them.</summary>
    public const int Overprints = 1 << Inks;

    // Black sets in where all three colours have this much, and spares some of them.
    private const double BlackFrom = 0.35;
    private const double BlackCurve = 1.7;
    private const double Spared = 0.35;

    private readonly double startNm;
    private readonly double stepNm;
    private readonly double[][] roots;

    /// <param name="channels">1 grey (black ink alone), 3 RGB (separated into the four inks), 4 CMYK.</param>
    /// <param name="primaries">Sixteen spectra on one grid of wavelengths: of the overprint of the inks whose bits are
    /// set in its place, cyan bit 0, magenta 1, yellow 2, black 3. Place 0 is the paper.</param>
    /// <param name="gain">Of each ink's dots at half coverage, 0 to .25: .15 makes 50 % cover 65 %.</param>
    /// <param name="n">Yule and Nielsen's n, 1 to 10: 1 for none of it, about 2 for paper.</param>
    /// <exception cref="ArgumentException">A number is out of its range, or the spectra do not share a grid.</exception>
    public NeugebauerPrinter(int channels, ImmutableArray<Spectrum> primaries, ImmutableArray<double> gain, double n)
    {
        if (channels is not (1 or 3 or 4) || primaries.Length != Overprints || gain.Length != Inks
            || n is not (>= 1 and <= 10) || gain.Any(g => g is not (>= 0 and <= 0.25)))
        {
            throw new ArgumentException($"Channels are 1, 3 or 4, overprints {Overprints}, gains {Inks} of 0 to .25, n 1 to 10.");
        }

        if (primaries.Any(p => p.StartNm != primaries[0].StartNm || p.StepNm != primaries[0].StepNm || p.Values.Length != primaries[0].Values.Length))
        {
            throw new ArgumentException("All overprints have their spectra on one grid of wavelengths.", nameof(primaries));
        }

        (Channels, Primaries, Gain, N) = (channels, primaries, gain, n);
        (startNm, stepNm) = (primaries[0].StartNm, primaries[0].StepNm);
        roots = [.. primaries.Select(p => p.Values.Select(r => Math.Pow(Math.Max(0, r), 1 / n)).ToArray())];
    }

    /// <inheritdoc/>
    public int Channels { get; }

    /// <summary>The spectra of the overprints; place 0 is the paper.</summary>
    public ImmutableArray<Spectrum> Primaries { get; }

    /// <summary>How each ink's dots grow at half coverage.</summary>
    public ImmutableArray<double> Gain { get; }

    /// <summary>Yule and Nielsen's n.</summary>
    public double N { get; }

    /// <summary>How much of the sheet each overprint covers when inks fall at random: Demichel's equations.</summary>
    /// <param name="coverage">Of each ink, 0 to 1.</param>
    /// <param name="weights">Two to the number of inks, to be filled: place i has the inks whose bits are set in i. They sum to 1.</param>
    /// <exception cref="ArgumentException">The lengths do not fit.</exception>
    public static void Demichel(ReadOnlySpan<double> coverage, Span<double> weights)
    {
        if (weights.Length != 1 << coverage.Length)
        {
            throw new ArgumentException($"{coverage.Length} inks have {1 << coverage.Length} overprints, not {weights.Length}.", nameof(weights));
        }

        weights[0] = 1;
        for (var ink = 0; ink < coverage.Length; ink++)
        {
            for (var i = 0; i < 1 << ink; i++)
            {
                weights[i + (1 << ink)] = weights[i] * coverage[ink];
                weights[i] *= 1 - coverage[ink];
            }
        }
    }

    /// <summary>What these device values print.</summary>
    /// <param name="device"><see cref="Channels"/> values, 0 to 1, as <see cref="IPrinterModel.Predict"/> takes them.</param>
    /// <exception cref="ArgumentException">There are more or fewer values than channels.</exception>
    public Spectrum Print(ReadOnlySpan<double> device)
    {
        Span<double> cover = stackalloc double[Inks];
        Separate(device, cover);
        for (var ink = 0; ink < Inks; ink++)
        {
            var a = Math.Clamp(cover[ink], 0, 1);
            cover[ink] = Math.Min(1, a + (4 * Gain[ink] * a * (1 - a)));
        }

        Span<double> weights = stackalloc double[Overprints];
        Demichel(cover, weights);
        var values = new double[roots[0].Length];
        for (var i = 0; i < Overprints; i++)
        {
            for (var k = 0; weights[i] > 0 && k < values.Length; k++)
            {
                values[k] += weights[i] * roots[i][k];
            }
        }

        for (var k = 0; k < values.Length; k++)
        {
            values[k] = Math.Pow(values[k], N);
        }

        return new(startNm, stepNm, ImmutableCollectionsMarshal.AsImmutableArray(values));
    }

    /// <inheritdoc/>
    public void Predict(ReadOnlySpan<double> device, Span<double> lab)
    {
        if (device.Length / Channels * 3 != lab.Length || device.Length % Channels != 0)
        {
            throw new ArgumentException("Device values and colours are not of the same number of rows.", nameof(lab));
        }

        for (var row = 0; row < lab.Length / 3; row++)
        {
            var colour = TristimulusWeights.D50.ToLab(Print(device.Slice(row * Channels, Channels)));
            (lab[3 * row], lab[(3 * row) + 1], lab[(3 * row) + 2]) = (colour.L, colour.A, colour.B);
        }
    }

    /// <summary>Which inks these device values ask for.</summary>
    /// <param name="device">As <see cref="Print"/> takes them.</param>
    /// <param name="inks">Cyan, magenta, yellow, black, 0 to 1, to be filled.</param>
    /// <exception cref="ArgumentException">There are more or fewer values than channels, or not four inks.</exception>
    public void Separate(ReadOnlySpan<double> device, Span<double> inks)
    {
        if (device.Length != Channels || inks.Length != Inks)
        {
            throw new ArgumentException($"{Channels} device values make {Inks} inks.", nameof(device));
        }

        if (Channels == 4)
        {
            device.CopyTo(inks);
            return;
        }

        if (Channels == 1)
        {
            inks.Clear();
            inks[3] = 1 - device[0];
            return;
        }

        var shared = 1 - Math.Max(device[0], Math.Max(device[1], device[2]));
        inks[3] = shared <= BlackFrom ? 0 : Math.Pow((shared - BlackFrom) / (1 - BlackFrom), BlackCurve);
        for (var i = 0; i < 3; i++)
        {
            inks[i] = 1 - device[i] - (Spared * inks[3]);
        }
    }
}

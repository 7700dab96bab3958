using System.Collections.Concurrent;

namespace Goodsheet.Colour.Colorimetry;

/// <summary>Weights that turn a 10 nm reflectance spectrum into XYZ by three sums (ASTM E308, tables of ASTM E2022).</summary>
/// <remarks>
/// Tabulated weights rather than observer times illuminant: the plain sum is off by .02 dE*ab on real spectra. Where an
/// instrument starts late or stops early, the weights outside are added to its first and last value, as E308 says.
/// </remarks>
public sealed class TristimulusWeights
{
    private static readonly ConcurrentDictionary<(Light, Observer), TristimulusWeights> Known = new();

    private readonly double[] nm;
    private readonly double[][] xyz;
    private readonly ConcurrentDictionary<(int Start, int Count), double[][]> folded = new();

    private TristimulusWeights(Table table)
    {
        nm = table.Column("nm");
        xyz = [table.Column("WX"), table.Column("WY"), table.Column("WZ")];
        White = new(xyz[0].Sum(), xyz[1].Sum(), xyz[2].Sum());
    }

    /// <summary>The perfect diffuser by these weights: their sums. Lab is taken relative to it.</summary>
    public Xyz White { get; }

    /// <summary>D50 and 2°: what prints are measured in (ISO 13655:2017).</summary>
    public static TristimulusWeights D50 => For(Light.D50, Observer.TwoDegrees);

    /// <summary>The weights of a light and an observer.</summary>
    public static TristimulusWeights For(Light light, Observer observer) => Known.GetOrAdd((light, observer), static key =>
    {
        var degrees = key.Item2 == Observer.TwoDegrees ? 2 : 10;
        return new(Table.Embedded($"weights_E2022_{key.Item1.ToString().ToUpperInvariant()}_{degrees}deg_10nm_360-780.csv"));
    });

    /// <summary>The tristimulus values of a spectrum.</summary>
    /// <exception cref="ArgumentException">The spectrum shares no 10 nm wavelength with 360 to 780 nm.</exception>
    public Xyz ToXyz(Spectrum spectrum)
    {
        var s = spectrum.AtTenNm();
        var w = folded.GetOrAdd(((int)s.StartNm, s.Values.Length), Fold);
        double x = 0, y = 0, z = 0;
        for (var i = 0; i < s.Values.Length; i++)
        {
            var r = s.Values[i];
            x += w[0][i] * r;
            y += w[1][i] * r;
            z += w[2][i] * r;
        }

        return new(x, y, z);
    }

    /// <summary>The L*a*b* of a spectrum, relative to <see cref="White"/>.</summary>
    /// <exception cref="ArgumentException">The spectrum shares no 10 nm wavelength with 360 to 780 nm.</exception>
    public Lab ToLab(Spectrum spectrum) => ToXyz(spectrum).ToLab(White);

    private double[][] Fold((int Start, int Count) grid)
    {
        var end = grid.Start + (10 * (grid.Count - 1));
        if (end < nm[0] || grid.Start > nm[^1])
        {
            throw new ArgumentException($"A spectrum from {grid.Start} to {end} nm lies outside {nm[0]} to {nm[^1]} nm.");
        }

        double[][] result = [new double[grid.Count], new double[grid.Count], new double[grid.Count]];
        for (var i = 0; i < nm.Length; i++)
        {
            var at = ((int)Math.Clamp(nm[i], grid.Start, end) - grid.Start) / 10;
            for (var axis = 0; axis < 3; axis++)
            {
                result[axis][at] += xyz[axis][i];
            }
        }

        return result;
    }
}

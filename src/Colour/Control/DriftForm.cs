using System.Collections.Immutable;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Control;

/// <summary>How a printing condition can drift, learnt from its reference chart: ten numbers that move every patch of it.</summary>
/// <remarks>
/// The density of a patch above the paper, first-surface reflection taken off, is a sum over the chart's own corner
/// inks, each spread as by Yule and Nielsen: −n log10(1 − a (1 − 10^(−K/n))). The coverages a are found by bounded least
/// squares. A drift changes each ink's density and how its dots grow, and tints the paper in two ways; each patch keeps
/// what the sum does not explain of it. See docs/decisions/0151.
/// </remarks>
public sealed class DriftForm
{
    /// <summary>Ink densities 0-3 (cyan, magenta, yellow, black), dot growth 4-7, yellowing 8, evenly darker 9.</summary>
    public const int Numbers = 10;

    private const int Inks = 4;
    private const int Bands = 36;
    private const int FirstNm = 380;
    private const double YuleNielsen = 2;
    private const double SurfaceOfBlack = 0.8; // of the least reflectance of the darkest corner
    private const double YellowingNm = 75;

    private readonly double[][] through = new double[Inks][]; // 10^(-K/n)
    private readonly double[][] density = new double[Inks][];
    private readonly double[] paper;
    private readonly double surface;

    private DriftForm(double[] paper, double[][] corners)
    {
        surface = Math.Max(0, SurfaceOfBlack * corners[3].Min());
        this.paper = paper;
        for (var j = 0; j < Inks; j++)
        {
            density[j] = Density(corners[j]);
            through[j] = [.. density[j].Select(k => Math.Pow(10, -k / YuleNielsen))];
        }
    }

    /// <summary>Learns the form from a reference chart.</summary>
    /// <param name="reference">RGB or CMYK with spectra, with patches of bare paper, each ink alone and black.</param>
    /// <returns>Null where the chart lacks spectra, or one of those patches.</returns>
    public static DriftForm? Of(MeasurementSet reference)
    {
        if (!reference.HasSpectra || reference.Space is not (DeviceSpace.Rgb or DeviceSpace.Cmyk))
        {
            return null;
        }

        var rgb = reference.Space is DeviceSpace.Rgb;
        double[][] wanted = rgb ? [[1, 1, 1], [0, 1, 1], [1, 0, 1], [1, 1, 0], [0, 0, 0]]
            : [[0, 0, 0, 0], [1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]];
        var known = reference.Averaged();
        var corners = wanted.Select(w => known.FirstOrDefault(p => p.Device.SequenceEqual(w))?.Spectrum).ToArray();
        return corners.Any(c => c is null) ? null : new(Read(corners[0]!), [.. corners[1..].Select(c => Read(c!))]);
    }

    /// <summary>How much of each ink covers a patch.</summary>
    /// <param name="spectrum">Its reference reading.</param>
    /// <returns>Cyan, magenta, yellow, black, 0 to 1.</returns>
    public ImmutableArray<double> Coverage(Spectrum spectrum)
    {
        var read = Read(spectrum);
        var goal = Density(read);
        double[] a = [0.3, 0.3, 0.3, 0.3];
        Span<double> slope = stackalloc double[Inks];
        for (var round = 0; round < 25; round++)
        {
            var (normal, right) = (new double[Inks, Inks], new double[Inks]);
            for (var b = 0; b < Bands; b++)
            {
                var weight = (read[b] / paper[b]) + 0.02;
                var miss = goal[b];
                for (var j = 0; j < Inks; j++)
                {
                    var left = 1 - (a[j] * (1 - through[j][b]));
                    miss += YuleNielsen * Math.Log10(left);
                    slope[j] = weight * YuleNielsen / Math.Log(10) * (1 - through[j][b]) / left;
                }

                for (var j = 0; j < Inks; j++)
                {
                    right[j] += slope[j] * weight * miss;
                    for (var k = 0; k < Inks; k++)
                    {
                        normal[j, k] += slope[j] * slope[k];
                    }
                }
            }

            Step(normal, right, a);
        }

        return [.. a];
    }

    /// <summary>What a patch reads after a drift.</summary>
    /// <param name="reference">Its reference reading.</param>
    /// <param name="coverage">Of <see cref="Coverage"/>.</param>
    /// <param name="drift">The <see cref="Numbers"/>: parts of density, coverage at half coverage, parts of reflectance; all 0 for none.</param>
    public Spectrum Changed(Spectrum reference, ImmutableArray<double> coverage, ReadOnlySpan<double> drift)
    {
        var values = Read(reference);
        for (var b = 0; b < Bands; b++)
        {
            double more = 0;
            for (var j = 0; j < Inks; j++)
            {
                var a = coverage[j];
                var grown = Math.Clamp(a + (drift[4 + j] * 4 * a * (1 - a)), 0, 1);
                var solid = Math.Pow(10, -density[j][b] * (1 + drift[j]) / YuleNielsen);
                more -= YuleNielsen * Math.Log10(Math.Max(1e-4, 1 - (grown * (1 - solid))) / (1 - (a * (1 - through[j][b]))));
            }

            var tint = 1 - (drift[8] * Math.Exp(-10 * b / YellowingNm)) - drift[9];
            values[b] = (((values[b] - surface) * Math.Pow(10, -more)) + surface) * tint;
        }

        return new(FirstNm, 10, [.. values]);
    }

    internal static Lab Colour(Spectrum spectrum) => TristimulusWeights.D50.ToLab(spectrum);

    // Coordinate descent on the quadratic, kept between 0 and 1.
    private static void Step(double[,] normal, double[] right, double[] a)
    {
        var step = new double[Inks];
        for (var round = 0; round < 40; round++)
        {
            for (var j = 0; j < Inks; j++)
            {
                var sum = right[j];
                for (var k = 0; k < Inks; k++)
                {
                    sum -= k == j ? 0 : normal[j, k] * step[k];
                }

                step[j] = Math.Clamp(sum / (normal[j, j] + 1e-9), -a[j], 1 - a[j]);
            }
        }

        for (var j = 0; j < Inks; j++)
        {
            a[j] = Math.Clamp(a[j] + (0.9 * step[j]), 0, 1);
        }
    }

    private double[] Density(double[] read) =>
        [.. read.Select((r, b) => -Math.Log10(Math.Max(1e-4, r - surface) / Math.Max(1e-4, paper[b] - surface)))];

    private static double[] Read(Spectrum spectrum) => [.. Enumerable.Range(0, Bands).Select(b => spectrum.At(FirstNm + (10 * b)))];
}

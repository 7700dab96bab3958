using System.Collections.Immutable;

namespace Goodsheet.Colour.Colorimetry;

/// <summary>Reflectance factors at even steps of wavelength.</summary>
/// <param name="StartNm">The first wavelength, nm.</param>
/// <param name="StepNm">The step between two values, nm, above 0.</param>
/// <param name="Values">Reflectance factors: 0 is black, 1 the perfect diffuser; above 1 where the paper glows.</param>
public sealed record Spectrum(double StartNm, double StepNm, ImmutableArray<double> Values)
{
    /// <summary>The last wavelength, nm.</summary>
    public double EndNm => StartNm + (StepNm * (Values.Length - 1));

    /// <summary>The reflectance at a wavelength, straight between neighbours and held at the ends.</summary>
    public double At(double nm)
    {
        var at = Math.Clamp((nm - StartNm) / StepNm, 0, Values.Length - 1);
        var i = Math.Min((int)at, Values.Length - 2);
        return i < 0 ? Values[0] : Values[i] + ((at - i) * (Values[i + 1] - Values[i]));
    }

    /// <summary>The same spectrum at 10 nm, as the standard weights need it.</summary>
    /// <remarks>
    /// Finer steps are averaged under a triangle of 10 nm half width, which is the bandpass the 10 nm weights suppose
    /// (ASTM E308); coarser ones are interpolated by the cubic of Lagrange (CIE 167:2005), which wants 20 nm or less.
    /// </remarks>
    public Spectrum AtTenNm()
    {
        if (StepNm == 10 && StartNm % 10 == 0)
        {
            return this;
        }

        var first = (int)Math.Ceiling(StartNm / 10) * 10;
        var last = (int)Math.Floor(EndNm / 10) * 10;
        var values = new double[Math.Max(1, ((last - first) / 10) + 1)];
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = StepNm < 10 ? UnderTriangle(first + (10 * i)) : Cubic(first + (10 * i));
        }

        return new(first, 10, [.. values]);
    }

    private double UnderTriangle(double centre)
    {
        double sum = 0, weights = 0;
        for (var i = 0; i < Values.Length; i++)
        {
            var weight = Math.Max(0, 1 - (Math.Abs(StartNm + (i * StepNm) - centre) / 10));
            sum += weight * Values[i];
            weights += weight;
        }

        return sum / weights;
    }

    private double Cubic(double nm)
    {
        if (Values.Length < 4)
        {
            return At(nm);
        }

        var at = (nm - StartNm) / StepNm;
        var from = Math.Clamp((int)Math.Floor(at) - 1, 0, Values.Length - 4);
        double sum = 0;
        for (var i = 0; i < 4; i++)
        {
            var basis = 1.0;
            for (var j = 0; j < 4; j++)
            {
                basis *= i == j ? 1 : (at - from - j) / (i - j);
            }

            sum += basis * Values[from + i];
        }

        return sum;
    }
}

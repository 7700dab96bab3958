using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Printer;

/// <summary>What a kind of device needs of the common model: features, trend, and numbers that were found once.</summary>
/// <remarks>
/// All numbers are fixed, not fitted. They were found on one paper and hold on another without loss; fitting them per
/// chart gains nothing and can go wrong.
/// </remarks>
internal abstract class KernelForm
{
    public abstract int Channels { get; }

    /// <summary>Features that distances are taken between, already divided by their lengths.</summary>
    public abstract int FeatureCount { get; }

    public abstract void Features(ReadOnlySpan<double> device, Span<double> features);

    /// <summary>Variance of the noise, relative to that of the colours.</summary>
    public abstract double Noise { get; }

    /// <summary>How the noise grows and falls with the colour, up to a factor.</summary>
    public virtual double NoiseShape(Lab colour) => 1 + (colour.Chroma / 30);

    /// <summary>Variance of a short kernel along the greys, which dies away from them; 0 for none.</summary>
    public virtual double RidgeVariance => 0;

    /// <summary>How that kernel falls from 1, by the distance of two values of <see cref="AlongGreys"/>.</summary>
    public virtual double RidgeCorrelation(double apart) => 0;

    /// <summary>Where along the greys a device value lies.</summary>
    public virtual double AlongGreys(ReadOnlySpan<double> device) => 0;

    /// <summary>How near to grey a device value is: 1 on the greys, nearly 0 away from them.</summary>
    public virtual double Greyness(ReadOnlySpan<double> device) => 0;

    /// <summary>Whether a driver of RGB lies between the device values and the inks: see <see cref="DriverTables"/>,
    /// <see cref="DriverCurves"/>.</summary>
    public virtual bool HasDriver => false;

    /// <summary>Below this many distinct patches the trend is linear.</summary>
    public virtual int QuadraticFrom => 30;

    public int TrendSize(bool quadratic) => 1 + Channels + (quadratic ? Channels * (Channels + 1) / 2 : 0);

    public void Trend(ReadOnlySpan<double> device, Span<double> terms)
    {
        terms[0] = 1;
        device[..Channels].CopyTo(terms[1..]);
        for (int i = 0, t = 1 + Channels; i < Channels && t < terms.Length; i++)
        {
            for (var j = i; j < Channels; j++, t++)
            {
                terms[t] = device[i] * device[j];
            }
        }
    }

    /// <summary>A monotone warp of 0 to 1 that is finer near both ends, where printers change fast.</summary>
    public static double Warp(double x, double a, double b) => 1 - Math.Pow(1 - Math.Pow(Math.Clamp(x, 0, 1), a) + 1e-12, b);
}

using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Printer;

/// <summary>What one paper's colours are brought to before they are learnt: mean 0, spread 1, a trend and a noise of its own.</summary>
internal sealed class PaperScale
{
    private readonly double relativeNoise;

    private PaperScale(double[] mean, double[] spread, int terms, double relativeNoise) =>
        (Mean, Spread, Terms, this.relativeNoise) = (mean, spread, terms, relativeNoise);

    public double[] Mean { get; }

    public double[] Spread { get; }

    /// <summary>Terms of its trend.</summary>
    public int Terms { get; }

    /// <summary>Where its terms begin among those of all papers.</summary>
    public int FirstTerm { get; set; }

    public static PaperScale Of(KernelForm form, Lab[] colours)
    {
        double[][] outputs = [[.. colours.Select(l => l.L)], [.. colours.Select(l => l.A)], [.. colours.Select(l => l.B)]];
        double[] mean = [.. outputs.Select(o => o.Average())];
        double[] spread = [.. outputs.Select((o, k) => Math.Sqrt(o.Average(v => (v - mean[k]) * (v - mean[k]))) is > 1e-6 and var sd ? sd : 1)];
        return new(mean, spread, form.TrendSize(colours.Length >= form.QuadraticFrom), form.Noise / colours.Average(Shape));
    }

    public double Scaled(Lab colour, int output) => ((output switch { 0 => colour.L, 1 => colour.A, _ => colour.B }) - Mean[output]) / Spread[output];

    /// <summary>The variance of a reading's noise: grows with chroma and shrinks with repeats.</summary>
    public double Noise(Lab colour, int count) => relativeNoise * Shape(colour) / count;

    private static double Shape(Lab lab) => 1 + (lab.Chroma / 30);
}

using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Printer;

/// <summary>What one paper's colours are brought to before they are learnt: mean 0, spread 1, a trend and a noise of its own.</summary>
internal sealed class PaperScale
{
    private readonly KernelForm form;
    private readonly double relativeNoise;

    private PaperScale(KernelForm form, double[] mean, double[] spread, int terms, double relativeNoise) =>
        (this.form, Mean, Spread, Terms, this.relativeNoise) = (form, mean, spread, terms, relativeNoise);

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
        return new(form, mean, spread, form.TrendSize(colours.Length >= form.QuadraticFrom), form.Noise / colours.Average(form.NoiseShape));
    }

    public double Scaled(Lab colour, int output) => ((output switch { 0 => colour.L, 1 => colour.A, _ => colour.B }) - Mean[output]) / Spread[output];

    /// <summary>The variance of a reading's noise: of the form's shape, and shrinking with repeats.</summary>
    public double Noise(Lab colour, int count) => relativeNoise * form.NoiseShape(colour) / count;
}

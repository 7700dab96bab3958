namespace Goodsheet.Imaging;

/// <summary>Between the codes of a picture and the light they stand for, where pixels have to be mixed.</summary>
/// <remarks>A power of 2.2, near enough to any picture's own curve: what counts is that light is what adds up.</remarks>
internal sealed class LightCurve
{
    private const double Exponent = 2.2;
    private const int Steps = 16_384;
    private const float Full = ushort.MaxValue;

    // By the square root of the light, since the curve is steep near black: within half a code.
    private static readonly float[] Codes = [.. Enumerable.Range(0, Steps + 2).Select(i => (float)(Math.Pow((double)i / Steps, 2 / Exponent) * Full))];

    /// <summary>For pictures in light: RGB and grey.</summary>
    public static readonly LightCurve Light = new(Exponent);

    /// <summary>Codes as they are: for inks, and where nothing is mixed.</summary>
    public static readonly LightCurve Straight = new(1);

    private readonly float[] light;
    private readonly bool straight;

    private LightCurve(double exponent)
    {
        straight = exponent == 1;
        light = [.. Enumerable.Range(0, ushort.MaxValue + 1).Select(i => (float)(straight ? i : Math.Pow(i / (double)Full, exponent)))];
    }

    /// <summary>The light of each code: 0 to 1, or the code itself where the curve is straight.</summary>
    public ReadOnlySpan<float> OfCode => light;

    /// <summary>Light back to codes, in place, clipped to what 16 bits hold but not rounded.</summary>
    public void ToCodes(Span<float> values)
    {
        if (straight)
        {
            for (var i = 0; i < values.Length; i++)
            {
                values[i] = Math.Clamp(values[i], 0, Full);
            }

            return;
        }

        ReadOnlySpan<float> codes = Codes;
        for (var i = 0; i < values.Length; i++)
        {
            var at = MathF.Sqrt(Math.Clamp(values[i], 0, 1)) * Steps;
            var below = (int)at;
            values[i] = codes[below] + ((at - below) * (codes[below + 1] - codes[below]));
        }
    }
}

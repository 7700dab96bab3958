namespace Goodsheet.Colour.Icc;

/// <summary>How Lab and XYZ are written as numbers of 0 to 1 in tables (ICC.1 clause 6.3.4, from memory).</summary>
/// <remarks>
/// <code>
///            0        1                       in 16 bits
/// Lab v4     0 -128   100  127                100 = FFFF, a* 0 = 8080; also 8 bits
/// Lab v2     0 -128   100.390625  127.99609   100 = FF00, a* 0 = 8000; 16 bits of version 2 and of lut16Type in any version
/// XYZ        0        1.999969                1 = 8000
/// </code>
/// </remarks>
public sealed record PcsEncoding
{
    /// <summary>L*a*b* as version 4 writes it, and 8 bits in any version.</summary>
    public static readonly PcsEncoding LabV4 = new(ColourSpace.Lab, (100, 0), (255, -128), (255, -128));

    /// <summary>L*a*b* as version 2 writes it in 16 bits.</summary>
    public static readonly PcsEncoding LabV2 =
        new(ColourSpace.Lab, (100 * 65535.0 / 65280, 0), (65535.0 / 256, -128), (65535.0 / 256, -128));

    /// <summary>XYZ in 16 bits.</summary>
    public static readonly PcsEncoding Xyz =
        new(ColourSpace.Xyz, (65535.0 / 32768, 0), (65535.0 / 32768, 0), (65535.0 / 32768, 0));

    private readonly (double Span, double From)[] channels;

    private PcsEncoding(ColourSpace space, params (double, double)[] channels) => (Space, this.channels) = (space, channels);

    /// <summary>Which space it writes.</summary>
    public ColourSpace Space { get; }

    /// <summary>From numbers of 0 to 1 to the colour. Nothing is clipped.</summary>
    /// <param name="code">Three numbers.</param>
    /// <param name="colour">Three numbers to fill; may be the same memory.</param>
    public void Decode(ReadOnlySpan<double> code, Span<double> colour)
    {
        for (var i = 0; i < 3; i++)
        {
            colour[i] = (code[i] * channels[i].Span) + channels[i].From;
        }
    }

    /// <summary>From the colour to numbers of 0 to 1. Nothing is clipped.</summary>
    /// <param name="colour">Three numbers.</param>
    /// <param name="code">Three numbers to fill; may be the same memory.</param>
    public void Encode(ReadOnlySpan<double> colour, Span<double> code)
    {
        for (var i = 0; i < 3; i++)
        {
            code[i] = (colour[i] - channels[i].From) / channels[i].Span;
        }
    }
}

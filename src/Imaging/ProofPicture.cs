using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>How to show a print on a screen before it is made.</summary>
public sealed record ProofOptions
{
    /// <summary>In pixels.</summary>
    public int LongestSide { get; init; } = 1_200;

    public RenderingIntent Intent { get; init; } = RenderingIntent.RelativeColorimetric;

    public bool BlackPointCompensation { get; init; } = true;

    /// <summary>With the paper's own white; without it as seen by an eye that has grown used to the paper.</summary>
    public bool PaperWhite { get; init; }

    /// <summary>The picture itself, as it came, instead of its print.</summary>
    public bool AsItCame { get; init; }

    /// <summary>Grey hatching over the colours that the paper does not hold.</summary>
    public bool Hatch { get; init; }

    /// <summary>Width by height of the print, whose picture is cut to it evenly on both sides; none for the picture's own.</summary>
    public double? Shape { get; init; }

    /// <summary>JPEG, which is smaller, rather than PNG.</summary>
    public bool Jpeg { get; init; }
}

/// <summary>A soft proof: what the print will look like, in sRGB for the screen.</summary>
/// <param name="Width">In pixels.</param>
/// <param name="Height">In pixels.</param>
/// <param name="File">A whole PNG or JPEG file.</param>
public sealed record ProofPicture(int Width, int Height, byte[] File)
{
    private const int Nodes = 33;
    private const int LongestSide = 4_000;
    private const double MissAtFull = 50;   // dE00 that the highest code stands for
    private const int HatchStep = 8;        // pixels from line to line
    private const int HatchWidth = 2;

    /// <summary>Renders a soft proof of a picture.</summary>
    public static PictureResult<ProofPicture> Render(string path, IccProfile printer, ProofOptions options)
    {
        ArgumentNullException.ThrowIfNull(printer);
        ArgumentNullException.ThrowIfNull(options);
        if (options.LongestSide is < 16 or > LongestSide)
        {
            return new PictureFault($"A proof on screen has 16 to {LongestSide} pixels on its longest side.");
        }

        return PictureSource.Look(path, from =>
        {
            var look = Look(from, printer, options);
            var test = options.Hatch && !options.AsItCame ? new GamutTest(from, printer, options.BlackPointCompensation) : null;
            var small = SmallPicture.Read(path, options.LongestSide, options.Shape);
            var screen = Through(small, look);
            if (test is not null)
            {
                Hatch(screen, Through(small, (pixel, to) => to.Fill(Math.Min(1, test.Of(pixel).Missed.Value / MissAtFull))), small.Width);
            }

            return new ProofPicture(small.Width, small.Height, Encode(screen, small, options.Jpeg));
        });
    }

    private delegate void Colour(ReadOnlySpan<double> pixel, Span<double> screen);

    // Picture to printer as it will be printed, printer to colours as measured, colours to screen.
    private static Colour Look(IccProfile from, IccProfile printer, ProofOptions options)
    {
        if (options.AsItCame)
        {
            var shown = ColourTransform.Create(from, IccProfile.Read(BuiltInProfiles.SRgb()).Profile!, RenderingIntent.RelativeColorimetric, blackPointCompensation: false);
            return (pixel, screen) => shown.Apply(pixel, screen);
        }

        var print = ColourTransform.Create(from, printer, options.Intent, options.BlackPointCompensation);
        var seen = ColourTransform.ToLab(
            printer, options.PaperWhite ? RenderingIntent.AbsoluteColorimetric : RenderingIntent.RelativeColorimetric);
        var show = ColourTransform.FromLab(IccProfile.Read(BuiltInProfiles.SRgb()).Profile!, RenderingIntent.RelativeColorimetric);
        return (pixel, screen) =>
        {
            Span<double> ink = stackalloc double[4];
            Span<double> lab = stackalloc double[3];
            ink = ink[..print.Outputs];
            print.Apply(pixel, ink);
            seen.Apply(ink, lab);
            show.Apply(lab, screen);
        };
    }

    // RGB goes through one table; grey and CMYK, which are rare, pixel by pixel.
    private static ushort[] Through(SmallPicture small, Colour colour)
    {
        var screen = new ushort[small.Width * small.Height * 3];
        if (small.Channels == 3)
        {
            var table = GridTable.Bake(Nodes, (from, to) =>
            {
                for (var i = 0; i < from.Length; i += 3)
                {
                    colour(from.AsSpan(i, 3), to.AsSpan(i, 3));
                }
            });
            TetrahedralKernel.Convert(table, small.Pixels, screen);
            return screen;
        }

        Parallel.For(0, small.Height, y =>
        {
            Span<double> pixel = stackalloc double[4];
            Span<double> to = stackalloc double[3];
            for (var i = y * small.Width; i < (y + 1) * small.Width; i++)
            {
                small.Pixel(i, pixel);
                colour(pixel[..small.Channels], to);
                for (var k = 0; k < 3; k++)
                {
                    screen[(3 * i) + k] = (ushort)((to[k] * ushort.MaxValue) + 0.5);
                }
            }
        });
        return screen;
    }

    // Lines at 45 degrees, neutral, and light on dark or dark on light: colours are judged beside them.
    private static void Hatch(ushort[] screen, ushort[] missed, int width)
    {
        const ushort limit = (ushort)(GamutTest.Held / MissAtFull * ushort.MaxValue);
        for (var i = 0; i < screen.Length / 3; i++)
        {
            if (missed[3 * i] > limit && ((i / width) + (i % width)) % HatchStep < HatchWidth)
            {
                var dark = screen[(3 * i) + 1] < 0x7000;
                screen.AsSpan(3 * i, 3).Fill((ushort)(dark ? 0xB000 : 0x4000));
            }
        }
    }

    private static byte[] Encode(ushort[] screen, SmallPicture small, bool jpeg)
    {
        var bytes = new byte[screen.Length];
        for (var i = 0; i < bytes.Length; i++)
        {
            bytes[i] = (byte)((screen[i] + 128) / 257);
        }

        using var raw = Image.NewFromMemory(bytes, small.Width, small.Height, 3, Enums.BandFormat.Uchar);
        using var tagged = raw.Copy(interpretation: Enums.Interpretation.Srgb);
        return jpeg ? tagged.JpegsaveBuffer(q: 90) : tagged.PngsaveBuffer();
    }
}

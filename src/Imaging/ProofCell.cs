using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Imaging;

/// <summary>One small print on a sheet of proofs.</summary>
public sealed record ProofCell
{
    /// <summary>The farthest a cell is made lighter or darker, in L* at mid grey.</summary>
    public const double MostLighter = 20;

    private const double MidGrey = 50; // L*

    /// <summary>What stands under it.</summary>
    public required string Label { get; init; }

    public required RenderingIntent Intent { get; init; }

    public bool BlackPointCompensation { get; init; } = true;

    /// <summary>How much lighter mid grey becomes, in L*; below 0 darker. Black and white stay.</summary>
    public double Lighter { get; init; }

    /// <summary>The profile of another paper, whose print is shown on this one with its own white and black; none for a print as it is.</summary>
    public IReadOnlyList<byte>? As { get; init; }

    /// <summary>Prepares the cell as a print of its size.</summary>
    /// <param name="picture">The picture's file.</param>
    /// <param name="profile">The profile of the paper that the sheet is printed on.</param>
    /// <param name="size">Size, resolution and sharpening; the intent is the cell's own.</param>
    /// <param name="output">Where to.</param>
    /// <param name="disk">Asked whether there is room; none for this machine's own.</param>
    /// <param name="cancel">Stops it, leaving nothing.</param>
    public PictureResult<Prepared> Prepare(string picture, byte[] profile, PrintRecipe size, string output, DiskRoom? disk = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(size);
        var recipe = size with { Intent = Intent, BlackPointCompensation = BlackPointCompensation, BorderMm = 0, WrapMm = 0, TrimMarks = false };
        if (recipe.Fault() is { } impossible)
        {
            return impossible;
        }

        if (Math.Abs(Lighter) > MostLighter)
        {
            return new PictureFault($"A proof is made at most {MostLighter:0} L* lighter or darker.");
        }

        var source = PrintSource.Of(picture, profile);
        if (source.Value is not { } between)
        {
            return source.Fault!;
        }

        try
        {
            var colours = As is { } other ? Simulated(between, [.. other], recipe) : RowColours.Of(between, recipe);
            return PrintPreparation.Run(picture, between, Lighter == 0 ? colours : Toned(colours), recipe, output, null, disk, cancel);
        }
        catch (ArgumentException e)
        {
            return new PictureFault(e.Message);
        }
    }

    // A power of the codes, through which mid grey of sRGB comes out as asked; of inks a power of what is left of the paper.
    private RowColours Toned(RowColours colours)
    {
        var power = Math.Log(Code(MidGrey + Lighter)) / Math.Log(Code(MidGrey));
        var ink = colours.Inputs == 4;
        var table = Enumerable.Range(0, ushort.MaxValue + 1)
            .Select(v => v / (double)ushort.MaxValue)
            .Select(v => (ushort)((ink ? 1 - Math.Pow(1 - v, power) : Math.Pow(v, power)) * ushort.MaxValue + 0.5)).ToArray();
        return colours with
        {
            Convert = (from, to) =>
            {
                var toned = new ushort[from.Length];
                for (var i = 0; i < toned.Length; i++)
                {
                    toned[i] = table[from[i]];
                }

                colours.Convert(toned, to);
            },
        };
    }

    // IEC 61966-2-1, and CIE L*.
    private static double Code(double lightness)
    {
        var y = Math.Pow((lightness + 16) / 116, 3);
        return (1.055 * Math.Pow(y, 1 / 2.4)) - 0.055;
    }

    // To the other paper as its print would be made, to the colours that come out there, and to the nearest this paper has, whites and all.
    private static RowColours Simulated(PrintSource between, byte[] other, PrintRecipe recipe)
    {
        var read = IccProfile.Read(other);
        var paper = read.Profile ?? throw new ArgumentException($"The other paper's profile is damaged: {read.Fault!.Message}");
        var print = ColourTransform.Create(between.From, paper, recipe.Intent, recipe.BlackPointCompensation);
        var seen = ColourTransform.ToLab(paper, RenderingIntent.AbsoluteColorimetric);
        var show = ColourTransform.FromLab(between.To, RenderingIntent.AbsoluteColorimetric);
        return new(print.Inputs, show.Outputs, (from, to) =>
        {
            Span<double> pixel = stackalloc double[4];
            Span<double> ink = stackalloc double[4];
            Span<double> lab = stackalloc double[3];
            Span<double> device = stackalloc double[4];
            for (var i = 0; i < from.Length / print.Inputs; i++)
            {
                for (var k = 0; k < print.Inputs; k++)
                {
                    pixel[k] = from[(i * print.Inputs) + k] / (double)ushort.MaxValue;
                }

                print.Apply(pixel[..print.Inputs], ink[..print.Outputs]);
                seen.Apply(ink[..print.Outputs], lab);
                show.Apply(lab, device[..show.Outputs]);
                for (var k = 0; k < show.Outputs; k++)
                {
                    to[(i * show.Outputs) + k] = (ushort)((device[k] * ushort.MaxValue) + 0.5);
                }
            }
        });
    }
}

using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

public sealed class ProofCellTest
{
    private const double AHalfL = 0.5; // the invented printer's tables on the way
    private const int AFewCodes = 64;  // a quarter of an 8-bit code: tables read in 16 bits against exact ones

    private static readonly PrintRecipe Size = new() { WidthMm = 30, HeightMm = 20, Ppi = 254, Intent = RenderingIntent.Perceptual, BorderMm = 5 };

    [Fact]
    public void A_plain_cell_is_the_print_itself_in_its_own_intent()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.png", 300, 200);
        Make(scratch, picture, new() { Label = "", Intent = RenderingIntent.RelativeColorimetric }, "cell.tif");
        Scratch.Prepare(picture, Scratch.Printer, Size with { Intent = RenderingIntent.RelativeColorimetric, BorderMm = 0, TrimMarks = false }, scratch["print.tif"]);
        Assert.Equal(File.ReadAllBytes(scratch["print.tif"]), File.ReadAllBytes(scratch["cell.tif"]));
    }

    [Theory]
    [InlineData(6)]
    [InlineData(-6)]
    public void Mid_grey_is_made_lighter_by_what_is_asked_and_white_and_black_stay(double lighter)
    {
        using var scratch = new Scratch();
        const ushort midGrey = 30_563; // sRGB of L* 50: 0.4663 (IEC 61966-2-1)
        DrawnTiff.Write(scratch["in.tif"], 300, 200, 3, 254, (y, row) => Array.Fill(row, y < 60 ? (ushort)0 : y < 140 ? midGrey : ushort.MaxValue));
        var cell = new ProofCell { Label = "", Intent = RenderingIntent.RelativeColorimetric, BlackPointCompensation = false };
        var (asIs, toned) = (Lab(Make(scratch, scratch["in.tif"], cell, "as.tif")), Lab(Make(scratch, scratch["in.tif"], cell with { Lighter = lighter }, "toned.tif")));
        Assert.Equal(lighter, toned.Mid - asIs.Mid, AHalfL);
        Assert.Equal(asIs.Low, toned.Low, 0.01);
        Assert.Equal(asIs.High, toned.High, 0.01);
    }

    [Fact]
    public void Another_paper_is_shown_by_its_own_tables_and_this_paper_s_absolute_ones()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 300, 200, deep: true);
        Make(scratch, picture, new() { Label = "", Intent = RenderingIntent.RelativeColorimetric, As = Scratch.CmykPrinter }, "cell.tif");
        using var shown = Image.NewFromFile(scratch["cell.tif"], memory: true);
        using var given = Image.NewFromFile(picture, memory: true);
        var (other, own) = (Scratch.Read(Scratch.CmykPrinter), Scratch.Read(Scratch.Printer));
        var print = ColourTransform.Create(Scratch.Read(BuiltInProfiles.SRgb()), other, RenderingIntent.RelativeColorimetric, true);
        var (seen, show) = (ColourTransform.ToLab(other, RenderingIntent.AbsoluteColorimetric), ColourTransform.FromLab(own, RenderingIntent.AbsoluteColorimetric));
        foreach (var (x, y) in ((int, int)[])[(20, 20), (150, 100), (280, 30), (60, 170)])
        {
            double[] ink = [0, 0, 0, 0], lab = [0, 0, 0], device = [0, 0, 0];
            print.Apply([.. given[x, y].Select(v => v / 65535)], ink);
            seen.Apply(ink, lab);
            show.Apply(lab, device);
            Assert.All(device.Zip(shown[x, y], (wanted, it) => Math.Abs((wanted * 65535) - it)), off => Assert.InRange(off, 0, AFewCodes));
        }
    }

    [Fact]
    public void Too_much_lighter_is_refused()
    {
        using var scratch = new Scratch();
        var made = new ProofCell { Label = "", Intent = RenderingIntent.Perceptual, Lighter = 21 }.Prepare(scratch.Ramp("in.png", 30, 20), Scratch.Printer, Size, scratch["cell.tif"], cancel: TestContext.Current.CancellationToken);
        Assert.Contains("20 L*", made.Fault!.Message, StringComparison.Ordinal);
        Assert.Equal(["in.png"], scratch.Files);
    }

    // The picture is as many pixels as the cell at 254 an inch: 300 by 200, unsharpened, so that it is not resampled.
    private static string Make(Scratch scratch, string picture, ProofCell cell, string name)
    {
        var size = cell.As is null && cell.Lighter == 0 && name == "cell.tif" ? Size : Size with { HaloMm = 0 };
        Assert.Null(cell.Prepare(picture, Scratch.Printer, size, scratch[name], cancel: TestContext.Current.CancellationToken).Fault);
        return scratch[name];
    }

    private static (double Low, double Mid, double High) Lab(string file)
    {
        using var image = Image.NewFromFile(file, memory: true);
        var seen = ColourTransform.ToLab(Scratch.Read(Scratch.Printer), RenderingIntent.RelativeColorimetric);
        double L(int y)
        {
            double[] lab = [0, 0, 0];
            seen.Apply([.. image[150, y].Select(v => v / 65535)], lab);
            return lab[0];
        }

        return (L(30), L(100), L(170));
    }
}

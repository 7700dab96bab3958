using CsCheck;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Printer;

public sealed class NeugebauerPrinterTest
{
    private const double Rounding = 1e-12; // of a few multiplications

    private static readonly InventedPaper Pearl = new() { Surface = 0.004, Warmth = 0.02, Brightener = 0.08 };

    [Fact]
    public void Demichels_weights_are_those_worked_by_hand()
    {
        // Worked by hand from (1 - c)(1 - m)(1 - y) and so on, the equations as in Neugebauer 1937 (from memory): no other source.
        double[] byHand = [0.08, 0.02, 0.08, 0.02, 0.32, 0.08, 0.32, 0.08]; // paper, c, m, cm, y, cy, my, cmy
        var weights = new double[8];
        NeugebauerPrinter.Demichel([0.2, 0.5, 0.8], weights);
        for (var i = 0; i < 8; i++)
        {
            Assert.Equal(byHand[i], weights[i], Rounding);
        }

        Assert.Throws<ArgumentException>(() => NeugebauerPrinter.Demichel([0.2, 0.5], new double[3]));
    }

    [Fact]
    public void Demichels_weights_sum_to_one() =>
        Gen.Double[0, 1].Array[4].Sample(inks =>
        {
            var weights = new double[16];
            NeugebauerPrinter.Demichel(inks, weights);
            Assert.Equal(1, weights.Sum(), Rounding);
            Assert.All(weights, w => Assert.InRange(w, 0, 1));
        });

    [Theory]
    [InlineData(1)]
    [InlineData(1.8)]
    public void Solid_inks_print_the_primaries(double n)
    {
        var printer = InventedPrinter.On(Pearl with { N = n }, pigment: true, channels: 4);
        for (var overprint = 0; overprint < 16; overprint++)
        {
            double[] device = [.. Enumerable.Range(0, 4).Select(i => (overprint >> i) & 1)];
            var printed = printer.Print(device);
            Assert.All(printed.Values.Zip(printer.Primaries[overprint].Values), p => Assert.Equal(p.Second, p.First, Rounding));
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void One_ink_without_gain_follows_Yule_and_Nielsens_density(double n)
    {
        // D = -n log10(1 - a (1 - 10^(-Ds/n))), relative to the paper; n = 1 is Murray and Davies. From memory.
        var printer = InventedPrinter.On(Pearl with { N = n, Gain = 0 }, pigment: true, channels: 4);
        var paper = printer.Primaries[0].Values[20];
        var solid = -Math.Log10(printer.Primaries[8].Values[20] / paper);
        foreach (var a in (double[])[0.1, 0.5, 0.9])
        {
            var density = -Math.Log10(printer.Print([0, 0, 0, a]).Values[20] / paper);
            Assert.Equal(-n * Math.Log10(1 - (a * (1 - Math.Pow(10, -solid / n)))), density, Rounding);
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void More_light_asked_for_is_never_darker(bool pigment)
    {
        var printer = InventedPrinter.On(Pearl, pigment);
        Gen.Select(Gen.Double[0, 1].Array[3], Gen.Int[0, 2], Gen.Double[0, 1]).Sample((device, channel, more) =>
        {
            var lighter = device.ToArray();
            lighter[channel] += more * (1 - lighter[channel]);
            Assert.True(L(printer, lighter) >= L(printer, device) - Rounding);
        });
        for (var i = 1; i <= 255; i++)
        {
            Assert.True(L(printer, [i / 255.0, i / 255.0, i / 255.0]) > L(printer, [(i - 1) / 255.0, (i - 1) / 255.0, (i - 1) / 255.0]));
        }
    }

    [Fact]
    public void An_invented_printer_looks_like_one()
    {
        // Common practice, no source: a gloss has its black under L* 12 and a matte about 16 to 20; paper is above 90;
        // cyan lies near 230 degrees, magenta near 355, yellow near 95.
        var gloss = InventedPrinter.On(Pearl, pigment: true);
        var matte = InventedPrinter.On(Pearl with { Surface = 0.02, InkTake = 0.95, Brightener = 0 }, pigment: true);
        Assert.InRange(L(gloss, [0, 0, 0]), 1, 12);
        Assert.InRange(L(matte, [0, 0, 0]), 14, 22);
        Assert.InRange(L(gloss, [1, 1, 1]), 90, 100);
        Assert.InRange(Lab(gloss, [0, 1, 1]).HueDegrees, 215, 245);
        Assert.InRange(Math.Abs(Lab(gloss, [1, 0, 1]).HueDegrees - 350), 0, 15);
        Assert.InRange(Lab(gloss, [1, 1, 0]).HueDegrees, 85, 105);
        Assert.All((double[][])[[0, 1, 1], [1, 0, 1], [1, 1, 0]], device => Assert.InRange(Lab(gloss, device).Chroma, 45, 110));
    }

    [Fact]
    public void Brightener_glows_under_ultraviolet_alone()
    {
        var glowing = Lab(InventedPrinter.On(Pearl, true, condition: MCondition.M1), [1, 1, 1]).B;
        var half = Lab(InventedPrinter.On(Pearl, true, condition: MCondition.M0), [1, 1, 1]).B;
        var dull = Lab(InventedPrinter.On(Pearl, true, condition: MCondition.M2), [1, 1, 1]).B;
        Assert.True(glowing < half && half < dull);
    }

    [Fact]
    public void Each_drift_moves_what_it_says_and_leaves_the_rest()
    {
        var still = InventedPrinter.On(Pearl, true, channels: 4);
        Assert.True(Error(still, new(CyanGain: 0.04), [0.5, 0, 0, 0]) > 1);
        Assert.Equal(0, Error(still, new(CyanGain: 0.04), [0, 0.5, 0.5, 0.5]), Rounding);
        Assert.Equal(0, Error(still, new(CyanGain: 0.04), [1, 0, 0, 0]), Rounding);
        Assert.True(Error(still, new(PaperTint: 0.05), [0, 0, 0, 0]) > 0.5);
        Assert.Equal(0, Error(still, new(AllInk: 0.05), [0, 0, 0, 0]), Rounding);
        Assert.True(Error(still, new(AllInk: 0.05), [0, 1, 0, 0]) > 0.5);
    }

    [Fact]
    public void A_reading_is_the_same_again_for_its_seed_and_as_noisy_as_said()
    {
        const double Quiet = 0.3; // dE00, mean: twice what the summary says
        var printer = InventedPrinter.On(Pearl, true);
        double[][] device = [.. Enumerable.Range(0, 200).Select(i => (double[])[i % 6 / 5.0, i % 7 / 6.0, i % 11 / 10.0])];
        var first = InventedPrinter.Read(printer, device, seed: 5);
        Assert.Equal(first.Patches.Select(p => p.Lab), InventedPrinter.Read(printer, device, seed: 5).Patches.Select(p => p.Lab));
        Assert.NotEqual(first.Patches.Select(p => p.Lab), InventedPrinter.Read(printer, device, seed: 6).Patches.Select(p => p.Lab));
        Assert.InRange(first.Patches.Average(p => CieDe2000.Between(p.Lab, Lab(printer, [.. p.Device])).Value), 0.05, Quiet);
    }

    [Fact]
    public void Numbers_out_of_range_are_refused()
    {
        var spectra = InventedPrinter.On(Pearl, true).Primaries;
        Assert.Throws<ArgumentException>(() => new NeugebauerPrinter(2, spectra, [0, 0, 0, 0], 1));
        Assert.Throws<ArgumentException>(() => new NeugebauerPrinter(3, spectra, [0, 0, 0, 0.26], 1));
        Assert.Throws<ArgumentException>(() => new NeugebauerPrinter(3, spectra, [0, 0, 0, 0], 0.99));
        Assert.Throws<ArgumentException>(() => new NeugebauerPrinter(3, spectra.SetItem(3, new(400, 10, [1, 1])), [0, 0, 0, 0], 1));
        Assert.Throws<ArgumentException>(() => new NeugebauerPrinter(3, spectra, [0, 0, 0, 0], 1).Predict([1, 1, 1], new double[6]));
    }

    private static double Error(NeugebauerPrinter still, PrinterDrift drift, double[] device) =>
        CieDe2000.Between(Lab(still, device), Lab(InventedPrinter.On(Pearl, true, channels: 4, drift), device)).Value;

    private static double L(NeugebauerPrinter printer, double[] device) => Lab(printer, device).L;

    private static Lab Lab(NeugebauerPrinter printer, double[] device) => TristimulusWeights.D50.ToLab(printer.Print(device));
}

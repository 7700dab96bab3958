using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests.Profiles;

/// <summary>From a chart of an invented spectral printer to the finished profile and back onto the printer, through Little CMS 2.</summary>
public class GreyAndCmykTest
{
    private const int Steps = 41;
    private const double Linear = 0.5;     // L*: what is asked of one pass
    private const double Level = 1 / 255.0; // black may be off by one of a driver's 256 levels
    private const double Limit = 2.8;      // of ink, all four together
    private const double Near = 1;         // of L* and of chroma: what the chart's noise and the tables may come to
    private const double CodeStep = 0.0005; // an ink value is written with 16 bits, four of them are summed

    private static readonly DateTimeOffset Day = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);
    private static readonly NeugebauerPrinter Cmyk = InventedPrinter.On(new() { Surface = 0.01 }, pigment: true, channels: 4);
    private static readonly IPrinterModel Learnt = PrinterModels.Fit([InventedPrinter.Read(Cmyk, [.. ChartDesign.First(DeviceSpace.Cmyk, 400, Limit)], 5)], cancel: TestContext.Current.CancellationToken);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(true, IccVersion.V4)]
    [InlineData(false, IccVersion.V4)]
    [InlineData(false, IccVersion.V2)]
    public void Grey_prints_equal_steps_of_lightness_after_one_pass_and_says_how_neutral_they_are(bool matte, IccVersion version)
    {
        var printer = InventedPrinter.On(new() { Surface = matte ? 0.02 : 0.003 }, pigment: true, channels: 1);
        var chart = InventedPrinter.Read(printer, [.. ChartDesign.First(DeviceSpace.Grey, 52)], 3);
        var made = ProfileMaker.Make(PrinterModels.Fit([chart], cancel: Cancel), new() { Name = "Grey", Created = Day, Version = version, Matte = matte }, cancel: Cancel);
        Assert.Empty(IccStructure.Findings(made.File));

        var black = Relative(printer, [0]).L;
        double[] wanted = [.. Enumerable.Range(0, Steps).Select(i => black + ((100 - black) * i / (Steps - 1)))];
        var device = Lcms.FromLab([.. wanted.SelectMany(l => (double[])[l, 0, 0])], made.File, RenderingIntent.RelativeColorimetric);
        Assert.All(wanted.Zip(device), step => Assert.InRange(Relative(printer, [step.Second]).L, step.First - Linear, step.First + Linear));

        // From the reference medium's black, or from none, over all the printer has: equal steps of Y-scaled lightness, never back.
        var drawnIn = Lcms.FromLab([.. Enumerable.Range(0, Steps).SelectMany(i => (double[])[100.0 * i / (Steps - 1), 0, 0])], made.File, RenderingIntent.Perceptual);
        Assert.True(drawnIn.Zip(drawnIn.Skip(1)).All(pair => pair.Second >= pair.First));
        Assert.InRange(drawnIn[0], 0, Level);
        Assert.Equal(1, drawnIn[^1]);

        var worth = ProfileWorth.Judge(IccProfile.Read(made.File).Profile!, chart);
        Assert.False(worth.Reverses);
        Assert.All(worth.Greys, g => Assert.InRange(g.Printed.Chroma - Printed(printer, [g.Device]).Chroma, -Linear, Linear));
    }

    [Fact]
    public void Cmyk_keeps_its_ink_limit_prints_its_greys_and_takes_black_from_where_it_is_told()
    {
        var (late, usual, early) = (Make(50), Make(80), Make(95));
        double At(double[] blacks, double lightness) => blacks[(int)Math.Round(lightness / 100 * (Steps - 1))];
        Assert.True(At(late, 60) < At(usual, 60) && At(usual, 60) < At(early, 60), $"{At(late, 60):0.000} {At(usual, 60):0.000} {At(early, 60):0.000}");
        Assert.InRange(At(late, 60), 0, 0.02);
    }

    // Black along the greys, from black to paper.
    private static double[] Make(double blackFrom)
    {
        var made = ProfileMaker.Make(Learnt, new() { Name = "Inks", Created = Day, InkLimit = Limit, BlackFrom = blackFrom }, cancel: Cancel);
        Assert.Empty(IccStructure.Findings(made.File));
        double[] ramp = [.. Enumerable.Range(0, Steps).SelectMany(i => (double[])[100.0 * i / (Steps - 1), 0, 0])];
        var random = new Random(8);
        double[] anywhere = [.. Enumerable.Range(0, 500).SelectMany(_ => (double[])[100 * random.NextDouble(), (200 * random.NextDouble()) - 100, (200 * random.NextDouble()) - 100])];
        foreach (var intent in (RenderingIntent[])[RenderingIntent.RelativeColorimetric, RenderingIntent.Perceptual, RenderingIntent.Saturation])
        {
            Assert.All(Lcms.FromLab([.. ramp, .. anywhere], made.File, intent).Chunk(4), ink => Assert.InRange(ink.Sum(), 0, Limit + CodeStep));
        }

        var inks = Lcms.FromLab(ramp, made.File, RenderingIntent.RelativeColorimetric).Chunk(4).ToArray();
        double[] black = [.. inks.Select(i => i[3])];
        var darkest = Relative(Cmyk, inks[0]).L;
        for (var i = 1; i < Steps - 1; i++)
        {
            var lightness = 100.0 * i / (Steps - 1);
            if (lightness > darkest + 5)
            {
                var printed = Relative(Cmyk, inks[i]);
                Assert.True(Math.Abs(printed.L - lightness) < Near && printed.Chroma < Near, $"L* {lightness} prints as {printed.L:0.0} {printed.A:0.0} {printed.B:0.0}");
            }
        }

        return black;
    }

    private static Lab Relative(NeugebauerPrinter printer, double[] device) => new MediaRelative(Printed(printer, printer.Channels == 4 ? [0, 0, 0, 0] : [1])).ToRelative(Printed(printer, device));

    private static Lab Printed(NeugebauerPrinter printer, double[] device)
    {
        var lab = new double[3];
        printer.Predict(device, lab);
        return new(lab[0], lab[1], lab[2]);
    }
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Control;

public sealed class BlackCheckTest
{
    private static readonly double[][] Strip =
        [[1, 1, 1], [0, 1, 1], [1, 0, 1], [1, 1, 0], [0, 0, 0], [0.5, 0.5, 0.5], [0, 0.5, 1], [1, 0.5, 0]];

    // Invented papers as the eight classes are: what the surface throws back bounds the density of black.
    public static TheoryData<double, double> Classes => new()
    {
        { 0.003, 1.08 }, { 0.005, 1 }, { 0.005, 1.04 }, { 0.023, 0.9 }, { 0.019, 0.95 }, { 0.025, 0.9 }, { 0.004, 1.05 }, { 0.026, 0.92 },
    };

    // Photo black on a dull coat loses .25 of density, matte black on a shiny one .4: common practice, no source.
    [Theory]
    [MemberData(nameof(Classes))]
    public void Another_black_is_seen_on_every_class_of_paper_whether_it_is_too_pale_or_the_chart_was(double surface, double inkTake)
    {
        var right = Read(surface, inkTake, PrinterDrift.None, 1);
        var wrong = Paler(Read(surface, inkTake, PrinterDrift.None, 2), surface > 0.01 ? 0.25 : 0.4);
        Assert.True(BlackCheck.Of(right, wrong)!.Wrong);
        Assert.True(BlackCheck.Of(wrong, right)!.Wrong);
    }

    [Theory]
    [MemberData(nameof(Classes))]
    public void No_drift_of_inks_or_paper_is_taken_for_another_black(double surface, double inkTake)
    {
        var before = Read(surface, inkTake, PrinterDrift.None, 1);
        foreach (var drift in (PrinterDrift[])
        [
            PrinterDrift.None, new(AllInk: 0.09), new(AllInk: -0.09), new(PaperTint: 0.09), new(BlackGain: 0.05), new(BlackGain: -0.05), new(CyanGain: 0.05),
        ])
        {
            Assert.False(BlackCheck.Of(before, Read(surface, inkTake, drift, 3))!.Wrong);
        }
    }

    [Fact]
    public void A_strip_without_black_says_nothing_of_it()
    {
        var all = Read(0.01, 1, PrinterDrift.None, 1);
        Assert.Null(BlackCheck.Of(all, all with { Patches = [.. all.Patches.Where(p => p.Device.Any(d => d > 0))] }));
    }

    private static MeasurementSet Read(double surface, double inkTake, PrinterDrift drift, int seed) =>
        InventedPrinter.Read(InventedPrinter.On(new() { Surface = surface, InkTake = inkTake }, pigment: true, drift: drift), Strip, seed);

    // Reflectance of the blackest patch raised by a density.
    private static MeasurementSet Paler(MeasurementSet set, double density) => set with
    {
        Patches = [.. set.Patches.Select(p =>
        {
            if (p.Device.Any(d => d > 0))
            {
                return p;
            }

            var spectrum = p.Spectrum! with { Values = [.. p.Spectrum.Values.Select(r => r * Math.Pow(10, density))] };
            return p with { Spectrum = spectrum, Lab = TristimulusWeights.D50.ToLab(spectrum) };
        })],
    };
}

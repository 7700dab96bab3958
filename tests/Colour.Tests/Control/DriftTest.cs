using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Control;

public class DriftTest
{
    private const double BroughtBack = 0.2; // dE00 mean of one seeded drift; the bench has the figures of many
    private static readonly InventedPaper Matte = new() { Surface = 0.02, Warmth = 0.05, InkTake = 0.8, Brightener = 0.05 };

    private static readonly double[][] Strip = [.. ((int[][])
    [
        [6, 6, 6], [0, 6, 6], [6, 0, 6], [6, 6, 0], [0, 0, 6], [0, 6, 0], [6, 0, 0], [0, 0, 0], [2, 6, 6], [4, 6, 6], [6, 2, 6], [6, 4, 6],
        [6, 6, 2], [6, 6, 4], [1, 1, 1], [2, 2, 2], [3, 3, 3], [4, 4, 4], [5, 5, 5], [3, 3, 6], [3, 6, 3], [6, 3, 3], [2, 4, 5], [5, 4, 3],
    ]).Select(p => p.Select(v => v / 6.0).ToArray())];

    public static TheoryData<DriftCause, PrinterDrift> Drifts => new()
    {
        { DriftCause.Paper, new(PaperTint: 0.04) },
        { DriftCause.Cyan, new(CyanGain: 0.04) },
        { DriftCause.Magenta, new(MagentaGain: -0.04) },
        { DriftCause.Yellow, new(YellowGain: 0.04) },
        { DriftCause.Black, new(BlackGain: 0.04) },
        { DriftCause.AllInks, new(AllInk: -0.04) },
    };

    [Theory]
    [MemberData(nameof(Drifts))]
    public void A_single_cause_is_named(DriftCause cause, PrinterDrift drift)
    {
        var found = DriftDiagnosis.Of(StripFit.Of(Read(PrinterDrift.None, 1), Read(drift, 2))!);
        Assert.Equal(cause, found.Cause);
        Assert.True(found.Sure);
    }

    [Fact]
    public void Curves_take_an_ink_s_dots_back_but_not_a_paper_s_tint_and_not_ink_that_is_not_there()
    {
        var fit = (PrinterDrift drift) => StripFit.Of(Read(PrinterDrift.None, 1), Read(drift, 2))!.LeftByCurves();
        var quiet = fit(PrinterDrift.None).Mean.Value;
        Assert.InRange(fit(new(CyanGain: 0.04)).Mean.Value, 0, quiet + BroughtBack);
        Assert.True(fit(new(PaperTint: 0.2)).Mean.Value > 2 * (quiet + BroughtBack));
        Assert.True(fit(new(AllInk: -0.09)).Largest.Value > fit(new(AllInk: 0.09)).Largest.Value); // a weaker solid stays weak
    }

    [Fact]
    public void Noise_alone_is_nothing_and_changes_nothing()
    {
        for (var seed = 10; seed < 20; seed++)
        {
            var (reference, strip) = (Read(PrinterDrift.None, seed), Read(PrinterDrift.None, seed + 100));
            Assert.Equal(DriftCause.Nothing, DriftDiagnosis.Of(StripFit.Of(reference, strip)!).Cause);
            Assert.False(DriftCorrection.Of(reference, strip)!.Applied);
        }
    }

    [Fact]
    public void A_dirty_tile_looks_like_a_drift_of_everything()
    {
        var clean = Read(PrinterDrift.None, 2);
        var dirty = clean with
        {
            Patches = [.. clean.Patches.Select(p => p.Spectrum! with { Values = [.. p.Spectrum.Values.Select(r => r * 1.03)] })
                .Select((s, i) => clean.Patches[i] with { Spectrum = s, Lab = TristimulusWeights.D50.ToLab(s) })],
        };
        Assert.Equal(DriftCause.Instrument, DriftDiagnosis.Of(StripFit.Of(Read(PrinterDrift.None, 1), dirty)!).Cause);
    }

    [Fact]
    public void A_drift_is_brought_back_from_its_strip()
    {
        PrinterDrift drift = new(AllInk: 0.05);
        var reference = Read(PrinterDrift.None, 1);
        var corrected = DriftCorrection.Of(reference, Read(drift, 2))!;
        Assert.True(corrected.Applied);
        Assert.True(corrected.After.Value < corrected.Before.Value / 2);
        var printer = InventedPrinter.On(Matte, pigment: true, drift: drift);
        var left = corrected.Chart.Patches.Average(p => CieDe2000.Between(p.Lab, TristimulusWeights.D50.ToLab(printer.Print(p.Device.AsSpan()))).Value);
        Assert.InRange(left, 0, BroughtBack);
    }

    [Fact]
    public void Half_a_strip_and_a_strip_without_a_chart_of_spectra_are_not_explained()
    {
        var (reference, strip) = (Read(PrinterDrift.None, 1), Read(PrinterDrift.None, 2));
        Assert.Null(StripFit.Of(reference, strip with { Patches = strip.Patches[..11] }));
        Assert.NotNull(StripFit.Of(reference, strip with { Patches = strip.Patches[..12] }));
        var blind = reference with { Patches = [.. reference.Patches.Select(p => p with { Spectrum = null })] };
        Assert.Null(StripFit.Of(blind, strip));
        Assert.Null(DriftCorrection.Of(blind, strip));
    }

    private static MeasurementSet Read(PrinterDrift drift, int seed) =>
        InventedPrinter.Read(InventedPrinter.On(Matte, pigment: true, drift: drift), Strip, seed);
}

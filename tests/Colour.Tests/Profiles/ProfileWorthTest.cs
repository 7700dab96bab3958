using System.Collections.Immutable;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.Colour.Tests.Profiles;

/// <summary>What a profile is said to be worth, against a printer whose every colour is known.</summary>
public class ProfileWorthTest
{
    private const int Grid = 17;

    // A table of 17 nodes read between them, on an invented printer: dE00.
    private const double TableError = 0.5;

    private static readonly NeugebauerPrinter Printer = InventedConditions.Gloss();

    private static readonly Lazy<IccProfile> Profile = new(() => IccProfile.Read(MadeProfiles.Gloss(grid: Grid)).Profile!);

    [Fact]
    public void Is_good_where_the_printer_prints_what_the_profile_says()
    {
        var worth = ProfileWorth.Judge(Profile.Value, Chart());
        Assert.Equal("Good to print with", worth.Verdict);
        Assert.InRange(worth.Chart.Mean.Value, 0, TableError);
        Assert.InRange(worth.Surface.Mean.Value, 0, TableError);
        Assert.False(worth.Reverses);
        Assert.Equal(Enum.GetValues<ColourRegion>(), worth.Regions.Select(r => r.Region));
        Assert.Null(worth.Foretold);
        Assert.Null(worth.Noise);
    }

    [Fact]
    public void Knows_the_size_of_the_gamut_and_how_well()
    {
        var worth = ProfileWorth.Judge(Profile.Value, Chart());
        var known = GamutSolid.Of(Printer, 65).Volume;
        // The table cuts the corners of this printer's steep curves, and the measured surface tells that it does.
        Assert.InRange(Math.Abs(worth.Gamut!.Volume - known), 0, worth.Gamut.Error);
        Assert.InRange(worth.Gamut.Error, 0, 0.1 * known);
    }

    [Fact]
    public void Is_less_sure_of_the_gamut_when_the_surface_prints_stronger_than_foretold()
    {
        // Every patch on the surface measured 1 unit of chroma farther out than the profile has it.
        var stronger = Chart(lab => lab with { A = lab.A * (1 + (1 / Math.Max(1, lab.Chroma))), B = lab.B * (1 + (1 / Math.Max(1, lab.Chroma))) });
        var (sure, unsure) = (ProfileWorth.Judge(Profile.Value, Chart()).Gamut!, ProfileWorth.Judge(Profile.Value, stronger).Gamut!);
        Assert.Equal(sure.Volume, unsure.Volume, 1e-6);
        Assert.True(unsure.Error > 1.5 * sure.Error, $"{sure.Error} and {unsure.Error}");
    }

    [Fact]
    public void Names_the_patch_that_stands_alone()
    {
        var chart = Chart();
        var wrong = chart.Patches[100] with { Lab = new(chart.Patches[100].Lab.L + 12, chart.Patches[100].Lab.A, chart.Patches[100].Lab.B) };
        var worth = ProfileWorth.Judge(Profile.Value, chart with { Patches = chart.Patches.SetItem(100, wrong) });
        Assert.Equal(wrong.Id, worth.Worst[0].Id);
        Assert.Contains(worth.Better, b => b.Contains($"patch {wrong.Id} ", StringComparison.Ordinal));
    }

    [Fact]
    public void Judges_by_what_was_not_seen_where_that_is_known()
    {
        var chart = Chart();
        // All others foretell 3 units too light.
        var worth = ProfileWorth.Judge(Profile.Value, chart, [.. chart.Averaged().Select(p => p.Lab with { L = p.Lab.L + 3 })]);
        Assert.Equal(worth.Foretold, worth.Judged);
        Assert.NotEqual("Good to print with", worth.Verdict);
        Assert.NotEmpty(worth.Better);
    }

    /// <summary>The patches of ISO 17321-1 that are named after skin, sky and leaves, as carried by colour-science.</summary>
    [Fact]
    public void Skin_leaves_and_sky_are_what_a_published_chart_calls_so_and_nothing_else_of_it()
    {
        var rows = Published.Rows("iso17321-1-patches.csv").ToArray();
        var labs = Enumerable.Range(1, 24).Select(p => TristimulusWeights.D50.ToLab(new(rows[0][0], 10, [.. rows.Select(r => r[p])]))).ToArray();
        int[] Those(ColourRegion region) => [.. Enumerable.Range(0, 24).Where(i => ProfileWorth.IsIn(region, labs[i], labs[i].L, 0))];
        Assert.Equal([0, 1], Those(ColourRegion.Skin));
        Assert.Equal([2], Those(ColourRegion.Sky));
        Assert.Equal([3], Those(ColourRegion.Foliage));
    }

    [Fact]
    public void Tells_which_way_colours_lie_beside_what_was_foretold()
    {
        // Everything printed lighter by 1 and redder by 2 than the profile says.
        var worth = ProfileWorth.Judge(Profile.Value, Chart(lab => lab with { L = lab.L + 1, A = lab.A + 2 }));
        var known = ProfileWorth.Judge(Profile.Value, Chart());
        foreach (var (moved, still) in worth.Regions.Join(known.Regions, r => r.Region, r => r.Region, (m, s) => (m, s)).Where(p => p.m.Errors.Count == p.s.Errors.Count))
        {
            Assert.InRange(moved.Lean.L - still.Lean.L, 1 - TableError, 1 + TableError);
            Assert.InRange(moved.Lean.A - still.Lean.A, 2 - TableError, 2 + TableError);
        }
    }

    [Fact]
    public void Each_ink_alone_gets_darker_with_more_of_it_and_one_that_turns_back_is_named()
    {
        var worth = ProfileWorth.Judge(Profile.Value, Chart());
        Assert.Equal([0, 1, 2], worth.Ramps.Select(r => r.Channel));
        Assert.All(worth.Ramps, r => Assert.False(r.Reverses));
        Assert.All(worth.Ramps, r => Assert.InRange(r.Bend, 0, 3)); // L* a step of 1/64, on an invented printer's steep shadows
        Assert.All(worth.Ramps, r => Assert.Equal(worth.White, r.Steps[^1].Printed));

        InkRamp back = new(1, [.. Enumerable.Range(0, 5).Select(i => new GreyStep(i / 4.0, new(((double[])[42, 41, 40, 60, 95])[i], 0, 0)))]);
        Assert.Equal(2, back.TurnsBack, 1e-12); // darkest at the middle, 2 lighter at full ink: worked by hand
        Assert.Equal(21, back.Bend, 1e-12); // 60 - 2 x 40 + 41; the next, 95 - 2 x 60 + 40, is 15: worked by hand
        Assert.Contains((worth with { Ramps = [back] }).Better, b => b.Contains("prints lighter by 2.0 L*", StringComparison.Ordinal));
    }

    [Fact]
    public void Refuses_a_chart_of_another_kind() =>
        Assert.Throws<ArgumentException>(() => ProfileWorth.Judge(Profile.Value, Chart() with { Channels = 4, Space = DeviceSpace.Cmyk }));

    private static MeasurementSet Chart(Func<Lab, Lab>? otherwise = null)
    {
        const int levels = 7;
        var patches = ImmutableArray.CreateBuilder<Patch>();
        for (var i = 0; i < levels * levels * levels; i++)
        {
            double[] device = [i / 49 / 6.0, i / 7 % 7 / 6.0, i % 7 / 6.0];
            var lab = new double[3];
            Printer.Predict(device, lab);
            Lab colour = new(lab[0], lab[1], lab[2]);
            patches.Add(new($"{i + 1}", [.. device], otherwise?.Invoke(colour) ?? colour));
        }

        return new(DeviceSpace.Rgb, 3, MCondition.M0, patches.ToImmutable());
    }
}

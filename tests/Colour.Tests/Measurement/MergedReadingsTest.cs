using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Tests.Measurement;

/// <summary>Readings with seeded noise about an invented truth.</summary>
public class MergedReadingsTest
{
    private const int Patches = 200;
    private const double Noise = 0.2;

    [Fact]
    public void Several_readings_are_nearer_to_the_truth_than_one_and_tell_the_noise()
    {
        var merged = MergedReadings.Of([Read(1), Read(2), Read(3), Read(4)]);
        Assert.Equal(Patches, merged.Set.Patches.Length);
        // The mean of four has half the error of one; the biweight loses a few per cent of that.
        Assert.InRange(Off(merged.Set) / Off(Read(1)), 0.4, 0.65);
        Assert.InRange(merged.Noise!.Value.Mean.Value, 0.2, 0.6); // two readings of sd .2 on three axes: about .4
        Assert.Empty(merged.Disagreements);
    }

    [Fact]
    public void One_misread_of_three_counts_for_nothing_and_is_named()
    {
        var wrong = Read(2);
        wrong = wrong with { Patches = wrong.Patches.SetItem(50, wrong.Patches[50] with { Lab = new(20, 30, 40) }) };
        var merged = MergedReadings.Of([Read(1), wrong, Read(3)]);
        var found = Assert.Single(merged.Disagreements);
        Assert.Equal(("51", 1, false), (found.Patch, found.Reading, found.LaterTaken));
        Assert.InRange(merged.Set.Patches[50].Lab.L, Truth(50).L - 1, Truth(50).L + 1);
    }

    [Fact]
    public void A_reading_that_scatters_counts_for_less()
    {
        var merged = MergedReadings.Of([Read(1), Read(2), Read(3, noise: 2)]);
        Assert.True(Off(merged.Set) < 1.1 * Off(MergedReadings.Of([Read(1), Read(2)]).Set));
    }

    [Fact]
    public void A_strip_that_was_read_again_replaces_what_it_contradicts()
    {
        var first = Read(1);
        first = first with { Patches = [.. first.Patches.Select((p, i) => i is >= 20 and < 30 ? p with { Lab = Truth(199 - i) } : p)] };
        var again = Read(2);
        var merged = MergedReadings.Of([first, again with { Patches = again.Patches[20..30] }]);
        Assert.Equal(Patches, merged.Set.Patches.Length);
        Assert.NotEmpty(merged.Disagreements);
        Assert.All(merged.Disagreements, d => Assert.True(d.LaterTaken));
        Assert.True(Off(merged.Set) < 1.2 * Off(Read(1)));
    }

    [Fact]
    public void Parts_become_one_chart_in_their_order()
    {
        var whole = Read(1);
        var merged = MergedReadings.Of([whole with { Patches = whole.Patches[..120] }, whole with { Patches = whole.Patches[120..] }]);
        Assert.Equal(whole.Patches.Select(p => p.Id), merged.Set.Patches.Select(p => p.Id));
        Assert.Null(merged.Noise);
    }

    [Fact]
    public void A_reading_that_lies_off_as_a_whole_shows_in_its_shift()
    {
        var moved = Read(2);
        moved = moved with { Patches = [.. moved.Patches.Select(p => p with { Lab = p.Lab with { B = p.Lab.B + 1.5 } })] };
        Assert.InRange(MergedReadings.Of([Read(1), moved]).Shifts[1].B, 1.4, 1.6);
    }

    [Fact]
    public void What_does_not_belong_together_is_refused()
    {
        Assert.Throws<ArgumentException>(() => MergedReadings.Of([Read(1)]));
        Assert.Throws<ArgumentException>(() => MergedReadings.Of([Read(1), Read(2) with { Condition = MCondition.M2 }]));
    }

    private static MeasurementSet Read(int seed, double noise = Noise)
    {
        var random = new Random(seed);
        double Next() => noise * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        return new(DeviceSpace.Rgb, 3, MCondition.M1, [.. Enumerable.Range(0, Patches).Select(i => new Patch(
            $"{i + 1}", [i / 200.0, i % 7 / 7.0, i % 11 / 11.0], new(Truth(i).L + Next(), Truth(i).A + Next(), Truth(i).B + Next())))]);
    }

    private static Lab Truth(int i) => new(20 + (i % 70), (i * 7 % 60) - 30, (i * 11 % 60) - 30);

    private static double Off(MeasurementSet set) => set.Patches.Select((p, i) => Math.Sqrt(
        Math.Pow(p.Lab.L - Truth(i).L, 2) + Math.Pow(p.Lab.A - Truth(i).A, 2) + Math.Pow(p.Lab.B - Truth(i).B, 2))).Average();
}

using Goodsheet.Colour.Difference;

namespace Goodsheet.Colour.Profiles;

/// <summary>From figures to words: whether to print with a profile, and what would make it better.</summary>
/// <remarks>The limits are ours, from what careful rooms reach on real charts; no standard has any.</remarks>
internal static class ProfileVerdict
{
    private const double GoodMean = 0.8;
    private const double FairMean = 1.5;
    private const double GoodMax = 4;

    // The tables' own share of the error, above which they are worth a remark.
    private const double GoodTrip = 0.3;

    // As near to the room's own repeats as is worth paper.
    private const double NearNoise = 1.5;

    // A kind of colour is weak when it is off by this much more than all together.
    private const double Weak = 1.5;

    // A patch that is off by this many times the 95th percentile stands alone: misread, likelier than a bad printer.
    private const double Alone = 2.5;

    private const int ManyPatches = 900;

    public static (string Verdict, string Advice) Of(ProfileWorth worth) => (worth.Judged.Mean.Value, worth.Judged.Largest.Value, worth.Reverses) switch
    {
        (_, _, true) => ("Make it again", "A grey ramp gets darker where it should get lighter: too much ink, or misread greys."),
        ( <= GoodMean, <= GoodMax, _) => ("Good to print with",
            $"On colours it has not seen it is off by {worth.Judged.Mean.Value:0.0} dE00 on average, {worth.Judged.Largest.Value:0.0} at worst{Beside(worth.Noise)}."),
        ( <= FairMean, _, _) => ("Fair", $"Usable for most work: off by {worth.Judged.Mean.Value:0.0} dE00 on average, {worth.Judged.Largest.Value:0.0} at worst{Beside(worth.Noise)}."),
        _ => ("Make it again", $"Too far off: {worth.Judged.Mean.Value:0.0} dE00 on average. Misread, wrong paper or wrong black is likelier than a bad printer."),
    };

    public static IReadOnlyList<string> Better(ProfileWorth worth)
    {
        var (all, better) = (worth.Judged, new List<string>());
        if (worth.Reverses)
        {
            better.Add("Lower the ink load of the media setting, or read the grey patches again.");
        }

        foreach (var ramp in worth.Ramps.Where(r => r.Reverses))
        {
            better.Add($"{Ink(worth.Ramps.Count, ramp.Channel)} alone prints lighter by {ramp.TurnsBack:0.0} L* where there should be more of it: a lower ink load may hold more.");
        }

        if (worth.Worst is [var worst, ..] && worst.Error > Math.Max(2, Alone * worth.Chart.P95.Value))
        {
            better.Add($"Read patch {worst.Id} again: it stands alone with {worst.Error:0.0} dE00.");
        }

        if (worth.Noise is { } noise && all.Mean.Value <= NearNoise * noise.Mean.Value)
        {
            return better; // as good as this printer and instrument repeat
        }

        foreach (var region in worth.Regions.Where(r => r.Errors.Count > 3 && r.Errors.Mean.Value > Math.Max(GoodMean, Weak * all.Mean.Value)))
        {
            better.Add($"{Words(region.Region)} are its weak side, {region.Errors.Mean.Value:0.0} dE00 on average: a second chart puts its patches there.");
        }

        if (worth.Errors.Count < ManyPatches && all.Mean.Value > GoodMean / 2)
        {
            better.Add($"It knows {worth.Errors.Count} colours: a second chart would teach it more.");
        }

        if (worth.Interior.Mean.Value > GoodTrip)
        {
            better.Add($"Its own tables cost {worth.Interior.Mean.Value:0.0} dE00 there and back: make it again from its measurements.");
        }

        return better;
    }

    private static string Beside(ErrorSummary? noise) => noise is { } n ? $"; the same patch read twice differs by {n.Mean.Value:0.0}" : "";

    private static string Ink(int channels, int channel) => ((string[])["Cyan", "Magenta", "Yellow", "Black"])[channel] + (channels == 4 ? "" : $" (the {((string[])["red", "green", "blue"])[channel]} number)");

    private static string Words(ColourRegion region) => region switch
    {
        ColourRegion.Foliage => "Leaves and grass",
        ColourRegion.Sky => "Skies",
        ColourRegion.Skin => "Skin colours",
        ColourRegion.Saturated => "Strong colours",
        _ => region.ToString(),
    };
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>What a profile is worth, as it is stored and shown: a form of its own, so that the library may change.</summary>
public sealed record WorthRecord(
    string Verdict, string Advice, IReadOnlyList<string> Better, WorthRecord.Figures Chart, WorthRecord.Figures? Foretold, WorthRecord.Figures? Noise,
    WorthRecord.Trips ThereAndBack, IReadOnlyList<WorthRecord.Region> Regions, WorthRecord.Size? Gamut, IReadOnlyList<WorthRecord.Patch> Worst,
    IReadOnlyList<double[]> Greys, IReadOnlyList<int> Histogram, double[] White, double[] Black,
    IReadOnlyList<WorthRecord.Ramp>? Ramps = null)
{
    /// <summary>The width of a bar of the histogram, in dE00.</summary>
    public const double BarWidth = 0.25;

    private const int Bars = 20;

    public static WorthRecord Of(ProfileWorth worth) => new(
        worth.Verdict, worth.Advice, worth.Better, Of(worth.Chart), Maybe(worth.Foretold), Maybe(worth.Noise),
        new(Of(worth.Interior), Of(worth.Surface), Of(worth.Neutral)),
        [.. worth.Regions.Select(r => new Region(r.Region.ToString(), r.Errors.Count, Of(r.Errors), Of(r.Lean)))],
        worth.Gamut is { } g ? new(g.Volume, g.Error) : null,
        [.. worth.Worst.Select(w => new Patch(w.Id, [.. w.Device], Of(w.Measured), Of(w.Foretold), w.Error))],
        [.. worth.Greys.Select(s => (double[])[s.Device, .. Of(s.Printed)])],
        [.. Enumerable.Range(0, Bars).Select(i => worth.Errors.Count(e => Math.Min(Bars - 1, (int)(e / BarWidth)) == i))],
        Of(worth.White), Of(worth.Black),
        [.. worth.Ramps.Select(r => new Ramp(InkName(worth.Ramps.Count, r.Channel), r.Bend, r.TurnsBack, [.. r.Steps.Select(s => (double[])[s.Device, .. Of(s.Printed)])]))]);

    /// <summary>Every error with what it is on, in the order they are told.</summary>
    public IEnumerable<(string On, Figures Errors)> Rows()
    {
        yield return (Foretold is null ? "The chart" : "Its own chart", Chart);
        if (Foretold is not null)
        {
            yield return ("Patches it had not seen", Foretold);
        }

        if (Noise is not null)
        {
            yield return ("The same patch read twice", Noise);
        }

        foreach (var region in Regions)
        {
            yield return ($"{Named(region.Name)}, {region.Patches} patches", region.Errors);
        }

        yield return ("There and back, inside the gamut", ThereAndBack.Interior);
        yield return ("There and back, its surface", ThereAndBack.Surface);
        yield return ("There and back, greys", ThereAndBack.Neutral);
    }

    /// <summary>Which way the colours of each kind lie beside what was foretold; none in records of before this was told.</summary>
    public IEnumerable<(string On, int Patches, double[] Lean)> Leans() =>
        Regions.Where(r => r.Lean is not null).Select(r => (Named(r.Name), r.Patches, r.Lean!));

    /// <summary>The largest second difference of the grey ramp's L*: how sharply its slope bends from step to step.</summary>
    public double Bend() => Bends.Of([.. Greys.Select(g => g[1])]);

    private static string Named(string region) => region switch
    {
        "Skin" => "Skin colours",
        "Saturated" => "Strong colours",
        "Foliage" => "Leaves and grass",
        "Sky" => "Skies",
        _ => region,
    };

    private static string InkName(int channels, int channel) => channels == 4
        ? ((string[])["Cyan", "Magenta", "Yellow", "Black"])[channel] : ((string[])["Red number (cyan)", "Green number (magenta)", "Blue number (yellow)"])[channel];

    private static Figures? Maybe(ErrorSummary? errors) => errors is { } e ? Of(e) : null;

    private static Figures Of(ErrorSummary errors) => new(errors.Mean.Value, errors.P95.Value, errors.Largest.Value);

    private static double[] Of(Lab lab) => [lab.L, lab.A, lab.B];

    public sealed record Figures(double Mean, double P95, double Max);

    public sealed record Trips(Figures Interior, Figures Surface, Figures Neutral);

    /// <param name="Lean">Measured less foretold, L* a* b* on average.</param>
    public sealed record Region(string Name, int Patches, Figures Errors, double[]? Lean = null);

    /// <summary>One channel alone.</summary>
    /// <param name="Bend">The largest second difference of its L*.</param>
    /// <param name="TurnsBack">How far it gets lighter where there is more ink, L*.</param>
    /// <param name="Steps">How much of the paper is left, 0 to 1, then L* a* b*; from full ink to paper.</param>
    public sealed record Ramp(string Name, double Bend, double TurnsBack, IReadOnlyList<double[]> Steps);

    public sealed record Size(double Volume, double Error);

    public sealed record Patch(string Id, double[] Device, double[] Measured, double[] Foretold, double Error);
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>What a profile is worth, as it is stored and shown: a form of its own, so that the library may change.</summary>
public sealed record WorthRecord(
    string Verdict, string Advice, IReadOnlyList<string> Better, WorthRecord.Figures Chart, WorthRecord.Figures? Foretold, WorthRecord.Figures? Noise,
    WorthRecord.Trips ThereAndBack, IReadOnlyList<WorthRecord.Region> Regions, WorthRecord.Size? Gamut, IReadOnlyList<WorthRecord.Patch> Worst,
    IReadOnlyList<double[]> Greys, IReadOnlyList<int> Histogram, double[] White, double[] Black)
{
    /// <summary>The width of a bar of the histogram, in dE00.</summary>
    public const double BarWidth = 0.25;

    private const int Bars = 20;

    public static WorthRecord Of(ProfileWorth worth) => new(
        worth.Verdict, worth.Advice, worth.Better, Of(worth.Chart), Maybe(worth.Foretold), Maybe(worth.Noise),
        new(Of(worth.Interior), Of(worth.Surface), Of(worth.Neutral)),
        [.. worth.Regions.Select(r => new Region(r.Region.ToString(), r.Errors.Count, Of(r.Errors)))],
        worth.Gamut is { } g ? new(g.Volume, g.Error) : null,
        [.. worth.Worst.Select(w => new Patch(w.Id, [.. w.Device], Of(w.Measured), Of(w.Foretold), w.Error))],
        [.. worth.Greys.Select(s => (double[])[s.Device, .. Of(s.Printed)])],
        [.. Enumerable.Range(0, Bars).Select(i => worth.Errors.Count(e => Math.Min(Bars - 1, (int)(e / BarWidth)) == i))],
        Of(worth.White), Of(worth.Black));

    private static Figures? Maybe(ErrorSummary? errors) => errors is { } e ? Of(e) : null;

    private static Figures Of(ErrorSummary errors) => new(errors.Mean.Value, errors.P95.Value, errors.Largest.Value);

    private static double[] Of(Lab lab) => [lab.L, lab.A, lab.B];

    public sealed record Figures(double Mean, double P95, double Max);

    public sealed record Trips(Figures Interior, Figures Surface, Figures Neutral);

    public sealed record Region(string Name, int Patches, Figures Errors);

    public sealed record Size(double Volume, double Error);

    public sealed record Patch(string Id, double[] Device, double[] Measured, double[] Foretold, double Error);
}

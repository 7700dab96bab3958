using Goodsheet.Colour.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>What a profile is worth, as it is stored and shown: a form of its own, so that the library may change.</summary>
public sealed record WorthRecord(
    string Verdict, string Advice, WorthRecord.Figures Chart, WorthRecord.Figures? Foretold, WorthRecord.Figures ThereAndBack,
    WorthRecord.Figures Neutral, IReadOnlyList<WorthRecord.Patch> Worst, IReadOnlyList<double[]> Greys, IReadOnlyList<int> Histogram,
    double[] White, double[] Black)
{
    /// <summary>The width of a bar of the histogram, in dE00.</summary>
    public const double BarWidth = 0.25;

    private const int Bars = 20;

    public static WorthRecord Of(ProfileWorth worth) => new(
        worth.Verdict, worth.Advice, Of(worth.Chart), worth.Foretold is { } f ? Of(f) : null, Of(worth.ThereAndBack), Of(worth.Neutral),
        [.. worth.Worst.Select(w => new Patch(
            w.Id, [.. w.Device], [w.Measured.L, w.Measured.A, w.Measured.B], [w.Foretold.L, w.Foretold.A, w.Foretold.B], w.Error))],
        [.. worth.Greys.Select(g => (double[])[g.Device, g.Printed.L, g.Printed.A, g.Printed.B])],
        [.. Enumerable.Range(0, Bars).Select(i => worth.Errors.Count(e => Math.Min(Bars - 1, (int)(e / BarWidth)) == i))],
        [worth.White.L, worth.White.A, worth.White.B], [worth.Black.L, worth.Black.A, worth.Black.B]);

    private static Figures Of(ErrorFigures f) => new(f.Mean, f.P95, f.Max);

    public sealed record Figures(double Mean, double P95, double Max);

    public sealed record Patch(string Id, double[] Device, double[] Measured, double[] Foretold, double Error);
}

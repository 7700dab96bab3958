using System.Globalization;
using System.Text;
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

    /// <summary>All figures, the grey ramp and the histogram, one a line: what, on what, and up to three numbers.</summary>
    public string ToCsv()
    {
        var text = new StringBuilder("what,on,first,second,third\r\n");
        foreach (var (on, f) in Rows())
        {
            text.Append(CultureInfo.InvariantCulture, $"dE00 mean p95 worst,\"{on}\",{f.Mean:0.###},{f.P95:0.###},{f.Max:0.###}\r\n");
        }

        foreach (var g in Greys)
        {
            text.Append(CultureInfo.InvariantCulture, $"L* a* b* of equal numbers,{g[0]:0.####},{g[1]:0.##},{g[2]:0.##},{g[3]:0.##}\r\n");
        }

        for (var i = 0; i < Histogram.Count; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"patches off by dE00 from,{i * BarWidth:0.##},{Histogram[i]},,\r\n");
        }

        return text.ToString();
    }

    /// <summary>The largest second difference of the grey ramp's L*: how sharply its slope bends from step to step.</summary>
    public double Bend() => Greys.Count < 3 ? 0 : Enumerable.Range(1, Greys.Count - 2).Max(i => Math.Abs(Greys[i + 1][1] - (2 * Greys[i][1]) + Greys[i - 1][1]));

    private static string Named(string region) => region switch
    {
        "Skin" => "Skin colours",
        "Saturated" => "Strong colours",
        _ => region,
    };

    private static Figures? Maybe(ErrorSummary? errors) => errors is { } e ? Of(e) : null;

    private static Figures Of(ErrorSummary errors) => new(errors.Mean.Value, errors.P95.Value, errors.Largest.Value);

    private static double[] Of(Lab lab) => [lab.L, lab.A, lab.B];

    public sealed record Figures(double Mean, double P95, double Max);

    public sealed record Trips(Figures Interior, Figures Surface, Figures Neutral);

    public sealed record Region(string Name, int Patches, Figures Errors);

    public sealed record Size(double Volume, double Error);

    public sealed record Patch(string Id, double[] Device, double[] Measured, double[] Foretold, double Error);
}

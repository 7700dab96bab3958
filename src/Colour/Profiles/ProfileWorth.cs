using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Profiles;

/// <summary>What a profile is worth, judged against a measured chart.</summary>
/// <param name="Chart">How far its prediction is off on the chart's patches, absolute.</param>
/// <param name="Foretold">How far each patch was off when the model had not seen it; none for a profile from elsewhere.</param>
/// <param name="Noise">What the chart's own repeats differ by: no profile can be better; none where nothing repeats.</param>
/// <param name="Interior">There and back inside the gamut, through the relative tables.</param>
/// <param name="Surface">There and back on the gamut's surface.</param>
/// <param name="Neutral">There and back on the neutral axis.</param>
/// <param name="Regions">Errors by kind of colour, on patches not seen where that is known; kinds without a patch are left out.</param>
/// <param name="Gamut">How large the gamut is; three channels only.</param>
/// <param name="Worst">The worst patches, worst first.</param>
/// <param name="Greys">The grey ramp as the profile foretells it, from black to paper.</param>
/// <param name="Reverses">Whether the ramp gets darker again anywhere on its way up.</param>
/// <param name="White">The paper.</param>
/// <param name="Black">The darkest colour of the ramp.</param>
/// <param name="Errors">Every patch's error, in the order of the chart, for the histogram; on patches not seen where that is known.</param>
/// <param name="Ramps">Each channel alone; none for a printer of one channel, whose ramp is the grey one.</param>
public sealed record ProfileWorth(
    ErrorSummary Chart, ErrorSummary? Foretold, ErrorSummary? Noise, ErrorSummary Interior, ErrorSummary Surface, ErrorSummary Neutral,
    IReadOnlyList<RegionErrors> Regions, GamutSize? Gamut, IReadOnlyList<PatchError> Worst, IReadOnlyList<GreyStep> Greys,
    bool Reverses, Lab White, Lab Black, IReadOnlyList<double> Errors,
    IReadOnlyList<InkRamp> Ramps)
{
    private const int WorstShown = 20;
    private const int GreySteps = 64;
    private const double Back = 0.05; // L*: a step back smaller than this is not seen

    /// <summary>"Good to print with", "Fair", "Make it again".</summary>
    public string Verdict => ProfileVerdict.Of(this).Verdict;

    /// <summary>What the verdict means.</summary>
    public string Advice => ProfileVerdict.Of(this).Advice;

    /// <summary>What would make it better, the most useful first; empty where nothing would.</summary>
    public IReadOnlyList<string> Better => ProfileVerdict.Better(this);

    /// <summary>The errors that count: on colours not seen, where that is known.</summary>
    public ErrorSummary Judged => Foretold ?? Chart;

    /// <summary>Judges a profile.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="chart">A chart of the same condition, measured.</param>
    /// <param name="foretold">What was foretold of each of its averaged patches while it was left out, for a profile
    /// made from it: see <see cref="Printer.PrinterModels.Foretold"/>.</param>
    /// <exception cref="ArgumentException">The chart's channels are not the profile's, or a table is missing.</exception>
    public static ProfileWorth Judge(IccProfile profile, MeasurementSet chart, IReadOnlyList<Lab>? foretold = null)
    {
        if (profile.Header.Space.Channels() != chart.Channels)
        {
            throw new ArgumentException(
                $"The profile is for {profile.Header.Space.Channels()} channels and the chart has {chart.Channels}.", nameof(chart));
        }

        var printer = new ProfilePrinter(profile);
        var patches = Patches(printer, chart);
        var unseen = foretold is { Count: > 0 } ? patches.Zip(foretold, (p, f) => p with { Foretold = f, Error = CieDe2000.Between(p.Measured, f).Value }).ToList() : null;
        var greys = GreyRamp(printer);
        var trips = new RoundTrips(profile);
        return new(
            Of(patches),
            unseen is null ? null : Of(unseen),
            Repeatability.Within(chart),
            trips.Interior(),
            trips.Surface(),
            trips.Neutral(),
            ByRegion(unseen ?? patches, greys[^1].Printed, patches.Min(p => p.Measured.L)),
            printer.Channels == 3 ? GamutSizes.Of(printer, unseen ?? patches) : null,
            [.. patches.OrderByDescending(p => p.Error).Take(WorstShown)],
            greys,
            greys.Zip(greys.Skip(1)).Any(pair => pair.Second.Printed.L < pair.First.Printed.L - Back),
            greys[^1].Printed,
            greys[0].Printed,
            [.. (unseen ?? patches).Select(p => p.Error)],
            InkRamps(printer));
    }

    private static List<PatchError> Patches(ProfilePrinter printer, MeasurementSet chart)
    {
        var averaged = chart.Averaged();
        var lab = new double[3 * averaged.Length];
        printer.Predict([.. averaged.SelectMany(p => p.Device)], lab);
        Dictionary<string, string> ids = [];
        foreach (var patch in chart.Patches)
        {
            ids.TryAdd(string.Join(' ', patch.Device), patch.Id);
        }

        return [.. averaged.Select((p, i) =>
        {
            Lab printed = new(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2]);
            return new PatchError(ids[string.Join(' ', p.Device)], p.Device, p.Lab, printed, CieDe2000.Between(p.Lab, printed).Value);
        })];
    }

    private static List<RegionErrors> ByRegion(List<PatchError> patches, Lab paper, double darkest)
    {
        var media = new MediaRelative(paper);
        return [.. Enum.GetValues<ColourRegion>()
            .Select(region => (region, inIt: patches.Where(p => IsIn(region, media.ToRelative(p.Measured), p.Measured.L, darkest)).ToList()))
            .Where(r => r.inIt.Count > 0)
            .Select(r => new RegionErrors(r.region, Of(r.inIt), Lean(r.inIt)))];
    }

    private static Lab Lean(List<PatchError> patches) => new(
        patches.Average(p => p.Measured.L - p.Foretold.L), patches.Average(p => p.Measured.A - p.Foretold.A), patches.Average(p => p.Measured.B - p.Foretold.B));

    internal static bool IsIn(ColourRegion region, Lab relative, double lightness, double darkest) => region switch
    {
        ColourRegion.Darks => lightness < 25 || lightness < darkest + 12,
        ColourRegion.Neutrals => relative.Chroma < 4,
        ColourRegion.Skin => relative.L is > 35 and < 88 && relative.Chroma is > 10 and < 42 && Hue(relative) is > 30 and < 78,
        ColourRegion.Foliage => relative.L is > 20 and < 75 && relative.Chroma is > 15 and < 50 && Hue(relative) is > 98 and < 140,
        ColourRegion.Sky => relative.L is > 35 and < 90 && relative.Chroma is > 8 and < 42 && Hue(relative) is > 230 and < 278,
        _ => relative.Chroma >= 50,
    };

    // Degrees, 0 to 360.
    private static double Hue(Lab colour) => (360 + (Math.Atan2(colour.B, colour.A) * 180 / Math.PI)) % 360;

    private static List<InkRamp> InkRamps(ProfilePrinter printer)
    {
        var n = printer.Channels;
        var lab = new double[3 * (GreySteps + 1)];
        return [.. Enumerable.Range(0, n == 1 ? 0 : n).Select(channel =>
        {
            // A level is how much of the paper is left: the device value itself, but for inks.
            printer.Predict(
                [.. Enumerable.Range(0, GreySteps + 1).SelectMany(i => Enumerable.Range(0, n).Select(c => (c == channel ? (double)i / GreySteps : 1) is var left && n == 4 ? 1 - left : left))], lab);
            return new InkRamp(channel, [.. Enumerable.Range(0, GreySteps + 1).Select(i => new GreyStep((double)i / GreySteps, new(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2])))]);
        })];
    }

    private static List<GreyStep> GreyRamp(ProfilePrinter printer) =>
    [
        .. Enumerable.Range(0, GreySteps + 1).Select(i =>
        {
            var level = (double)i / GreySteps;
            double[] device = printer.Channels == 4 ? [0, 0, 0, 1 - level] : [.. Enumerable.Repeat(level, printer.Channels)];
            Span<double> lab = stackalloc double[3];
            printer.Predict(device, lab);
            return new GreyStep(level, new(lab[0], lab[1], lab[2]));
        }),
    ];

    private static ErrorSummary Of(IEnumerable<PatchError> patches) => ErrorSummary.Of(patches.Select(p => new DeltaE00(p.Error)));
}

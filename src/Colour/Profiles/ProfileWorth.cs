using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Profiles;

/// <summary>Mean, 95th percentile and largest of some differences, in dE00.</summary>
public sealed record ErrorFigures(double Mean, double P95, double Max)
{
    /// <summary>The figures of one or more differences.</summary>
    public static ErrorFigures Of(IEnumerable<double> differences)
    {
        var sorted = differences.Order().ToArray();
        return new(sorted.Average(), sorted[(int)(0.95 * (sorted.Length - 1))], sorted[^1]);
    }
}

/// <summary>A patch and how far the profile is off on it.</summary>
public sealed record PatchError(string Id, IReadOnlyList<double> Device, Lab Measured, Lab Foretold, double Error);

/// <summary>A step of the grey ramp as it prints: R = G = B, or black ink alone.</summary>
public sealed record GreyStep(double Device, Lab Printed);

/// <summary>What a profile is worth, judged against a measured chart.</summary>
/// <param name="Chart">How far its prediction is off on the chart's patches, absolute.</param>
/// <param name="Foretold">How far each patch was off when the model had not seen it; none for a profile from elsewhere.</param>
/// <param name="ThereAndBack">Colour to ink and back inside the gamut, through the relative tables.</param>
/// <param name="Neutral">There and back on the neutral axis.</param>
/// <param name="Worst">The worst patches, worst first.</param>
/// <param name="Greys">The grey ramp as the profile foretells it, from black to paper.</param>
/// <param name="Reverses">Whether the ramp gets darker again anywhere on its way up.</param>
/// <param name="White">The paper.</param>
/// <param name="Black">The darkest colour of the ramp.</param>
/// <param name="Errors">Every patch's error, in the order of the chart, for the histogram.</param>
public sealed record ProfileWorth(
    ErrorFigures Chart, ErrorFigures? Foretold, ErrorFigures ThereAndBack, ErrorFigures Neutral, IReadOnlyList<PatchError> Worst,
    IReadOnlyList<GreyStep> Greys, bool Reverses, Lab White, Lab Black, IReadOnlyList<double> Errors)
{
    private const int WorstShown = 20;
    private const int Trips = 2_000;
    private const int GreySteps = 64;

    // Limits of the words: ours, editable nowhere yet, from what careful rooms reach on real charts.
    private const double GoodMean = 0.8;
    private const double FairMean = 1.5;
    private const double GoodMax = 4;

    /// <summary>"Good to print with", "Fair", "Make it again".</summary>
    public string Verdict => (Judged, Reverses) switch
    {
        (_, true) => "Make it again",
        ({ Mean: <= GoodMean, Max: <= GoodMax }, _) => "Good to print with",
        ({ Mean: <= FairMean }, _) => "Fair",
        _ => "Make it again",
    };

    /// <summary>What the verdict means and what would make it better.</summary>
    public string Advice => (Judged, Reverses) switch
    {
        (_, true) => "A grey ramp gets darker where it should get lighter: too much ink, or misread greys. Lower the ink load of the media setting, or read the grey patches again.",
        ({ Mean: <= GoodMean, Max: <= GoodMax }, _) => $"On colours it has not seen it is off by {Judged.Mean:0.0} dE00 on average, {Judged.Max:0.0} at worst.",
        ({ Mean: <= FairMean }, _) => "Usable for most work. A second chart, or reading the worst patches below again, would make it better.",
        _ => "Too far off. Look at the worst patches: misread, wrong paper or wrong black is likelier than a bad printer. Print and read the chart again.",
    };

    private ErrorFigures Judged => Foretold ?? Chart;

    /// <summary>Judges a profile.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="chart">A chart of the same condition, measured.</param>
    /// <param name="foretold">Differences of patches left out while learning, if the profile was made here.</param>
    /// <exception cref="ArgumentException">The chart's channels are not the profile's, or a table is missing.</exception>
    public static ProfileWorth Judge(IccProfile profile, MeasurementSet chart, IReadOnlyList<DeltaE00>? foretold = null)
    {
        if (profile.Header.Space.Channels() != chart.Channels)
        {
            throw new ArgumentException(
                $"The profile is for {profile.Header.Space.Channels()} channels and the chart has {chart.Channels}.", nameof(chart));
        }

        var absolute = ColourTransform.ToLab(profile, RenderingIntent.AbsoluteColorimetric);
        var patches = chart.Averaged().Select((p, i) =>
        {
            var printed = One(absolute, [.. p.Device]);
            var id = chart.Patches.First(x => x.Device.AsSpan().SequenceEqual(p.Device.AsSpan())).Id;
            return new PatchError(id, p.Device, p.Lab, printed, CieDe2000.Between(p.Lab, printed).Value);
        }).ToList();
        var greys = GreyRamp(profile, absolute);
        return new(
            ErrorFigures.Of(patches.Select(p => p.Error)),
            foretold is { Count: > 0 } ? ErrorFigures.Of(foretold.Select(f => f.Value)) : null,
            ErrorFigures.Of(ThereAndBackInside(profile)),
            ErrorFigures.Of(ThereAndBackOnNeutrals(profile, greys)),
            [.. patches.OrderByDescending(p => p.Error).Take(WorstShown)],
            greys,
            greys.Zip(greys.Skip(1)).Any(pair => pair.Second.Printed.L < pair.First.Printed.L - 0.05),
            greys[^1].Printed,
            greys[0].Printed,
            [.. patches.Select(p => p.Error)]);
    }

    private static List<GreyStep> GreyRamp(IccProfile profile, ColourTransform absolute)
    {
        var channels = profile.Header.Space.Channels();
        return [.. Enumerable.Range(0, GreySteps + 1).Select(i =>
        {
            var level = (double)i / GreySteps;
            double[] device = channels == 4 ? [0, 0, 0, 1 - level] : [.. Enumerable.Repeat(level, channels)];
            return new GreyStep(level, One(absolute, device));
        })];
    }

    private static double[] ThereAndBackInside(IccProfile profile)
    {
        var random = new Random(Seed: 1);
        var channels = profile.Header.Space.Channels();
        var (to, from) = Relative(profile);
        return [.. Enumerable.Range(0, Trips).Select(_ =>
        {
            var device = Enumerable.Range(0, channels).Select(_ => 0.05 + (0.9 * random.NextDouble())).ToArray();
            return Trip(to, from, One(to, device));
        })];
    }

    private static double[] ThereAndBackOnNeutrals(IccProfile profile, List<GreyStep> greys)
    {
        var (to, from) = Relative(profile);
        var black = Math.Max(1, greys.Min(g => g.Printed.L) + 2);
        return [.. Enumerable.Range(0, 50).Select(i => Trip(to, from, new Lab(black + ((100 - black) * i / 49.0), 0, 0)))];
    }

    private static (ColourTransform To, ColourTransform From) Relative(IccProfile profile) => (
        ColourTransform.ToLab(profile, RenderingIntent.RelativeColorimetric), ColourTransform.FromLab(profile, RenderingIntent.RelativeColorimetric));

    private static double Trip(ColourTransform to, ColourTransform from, Lab colour)
    {
        var device = new double[from.Outputs];
        from.Apply([colour.L, colour.A, colour.B], device);
        return CieDe2000.Between(colour, One(to, device)).Value;
    }

    private static Lab One(ColourTransform transform, double[] device)
    {
        Span<double> lab = stackalloc double[3];
        transform.Apply(device, lab);
        return new(lab[0], lab[1], lab[2]);
    }
}

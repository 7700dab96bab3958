using System.Collections.Immutable;
using System.Globalization;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;

namespace Goodsheet.Colour.Measurement;

/// <summary>A patch on which readings of one chart do not agree.</summary>
/// <param name="Patch">Its sample id.</param>
/// <param name="Reading">Which reading lies off, 0 up.</param>
/// <param name="Away">How far from the others; of two, from each other.</param>
/// <param name="LaterTaken">Whether it was one of only two: then the later one was taken as it is.</param>
public sealed record Disagreement(string Patch, int Reading, DeltaE00 Away, bool LaterTaken);

/// <summary>Readings of one chart put together: read several times, in parts, or some strips again.</summary>
/// <param name="Set">The patches of all, each once, in the order of the first reading that has it.</param>
/// <param name="Noise">How far two readings of a patch differ; none where no patch was read twice.</param>
/// <param name="Shifts">The mean of each reading against the patches it shares with the rest, L*, a*, b*; 0 where none.</param>
/// <param name="Disagreements">Patches on which a reading counts for little or was left out, the worst first.</param>
/// <remarks>
/// A patch is known by its id and device values. Three and more readings are averaged with Tukey's biweight about their
/// median (Mosteller, Tukey, Data Analysis and Regression, 1977; from memory), in spectra where there are some, and a
/// reading that scatters more than the others counts for less throughout. Of two that differ by much more than usual
/// nothing tells which is right: the later is taken, since strips are read again because of the earlier.
/// </remarks>
public sealed record MergedReadings(MeasurementSet Set, ErrorSummary? Noise, ImmutableArray<Lab> Shifts, IReadOnlyList<Disagreement> Disagreements)
{
    // Beyond so many robust standard deviations a reading counts for nothing: Tukey's usual choice.
    private const double Reach = 6;

    // Under this nothing is called a disagreement: instruments of one kind differ by as much (common practice, no source).
    private const double LeastAway = 2;

    // Two readings may not differ by more than this, however much most of them do.
    private const double MostAway = 4;

    // A scatter under this is luck: dE*ab.
    private const double LeastScatter = 0.05;

    /// <summary>Puts readings together.</summary>
    /// <param name="readings">Two or more, in the order they were read.</param>
    /// <exception cref="ArgumentException">There are fewer than two, one is empty, or they differ in device space or M-condition.</exception>
    public static MergedReadings Of(IReadOnlyList<MeasurementSet> readings)
    {
        if (readings.Count < 2 || readings.Any(r => r.Patches.IsEmpty || r.Space != readings[0].Space || r.Channels != readings[0].Channels || r.Condition != readings[0].Condition))
        {
            throw new ArgumentException("Two or more readings of one device space and one M-condition are needed.", nameof(readings));
        }

        var (order, all) = Together(readings);
        var middles = all.ToDictionary(a => a.Key, a => Middle(a.Value));
        var scatter = Enumerable.Range(0, readings.Count).Select(r => Scatter(all, middles, r)).ToArray();
        var overall = Math.Max(LeastScatter, Median([.. all.Where(a => a.Value.Count > 1).SelectMany(a => a.Value.Select(v => Distance(v.Patch.Lab, middles[a.Key])))]) * 1.4826);
        var (patches, disagreements) = (ImmutableArray.CreateBuilder<Patch>(order.Count), new List<Disagreement>());
        foreach (var key in order)
        {
            patches.Add(One(all[key], middles[key], scatter, overall, disagreements));
        }

        DeltaE00[] noise = [.. all.Values.Where(v => v.Count > 1).SelectMany(v => v.Zip(v.Skip(1), (a, b) => CieDe2000.Between(a.Patch.Lab, b.Patch.Lab)))];
        return new(
            readings[0] with { Patches = patches.MoveToImmutable() },
            noise.Length > 0 ? ErrorSummary.Of(noise) : null,
            [.. Enumerable.Range(0, readings.Count).Select(r => Shift(all, r))],
            [.. disagreements.OrderByDescending(d => d.Away.Value)]);
    }

    private static (List<string> Order, Dictionary<string, List<(int Reading, Patch Patch)>> All) Together(IReadOnlyList<MeasurementSet> readings)
    {
        var (order, all) = (new List<string>(), new Dictionary<string, List<(int, Patch)>>());
        for (var r = 0; r < readings.Count; r++)
        {
            Dictionary<string, int> times = [];
            foreach (var patch in readings[r].Patches)
            {
                var key = $"{patch.Id} {string.Join(' ', patch.Device.Select(d => d.ToString("R", CultureInfo.InvariantCulture)))}";
                times[key] = times.GetValueOrDefault(key) + 1;
                key += $" {times[key]}"; // the same id twice in one file: first with first, second with second
                if (!all.TryGetValue(key, out var here))
                {
                    order.Add(key);
                    all[key] = here = [];
                }

                here.Add((r, patch));
            }
        }

        return (order, all);
    }

    private static Patch One(List<(int Reading, Patch Patch)> read, Lab middle, double[] scatter, double overall, List<Disagreement> disagreements)
    {
        var first = read[0].Patch;
        if (read.Count == 1)
        {
            return first;
        }

        if (read.Count == 2)
        {
            var apart = CieDe2000.Between(read[0].Patch.Lab, read[1].Patch.Lab);
            if (apart.Value > Math.Clamp(Reach * overall, LeastAway, MostAway))
            {
                disagreements.Add(new(first.Id, read[0].Reading, apart, LaterTaken: true));
                return read[1].Patch;
            }
        }

        var weights = read.Select(v =>
        {
            var u = Math.Min(1, Distance(v.Patch.Lab, middle) / (Reach * Math.Max(overall, LeastAway / Reach)));
            var own = Math.Max(scatter[v.Reading], LeastScatter);
            return (read.Count > 2 ? (1 - (u * u)) * (1 - (u * u)) : 1) / (own * own);
        }).ToArray();
        var sum = weights.Sum();
        weights = sum > 0 ? [.. weights.Select(w => w / sum)] : [.. weights.Select(_ => 1.0 / read.Count)];
        for (var i = 0; i < read.Count && read.Count > 2; i++)
        {
            var away = CieDe2000.Between(read[i].Patch.Lab, middle);
            if (away.Value > LeastAway && weights[i] < 0.5 / read.Count)
            {
                disagreements.Add(new(first.Id, read[i].Reading, away, LaterTaken: false));
            }
        }

        return Weighted(first, [.. read.Select(v => v.Patch)], weights);
    }

    private static Patch Weighted(Patch first, Patch[] read, double[] weights)
    {
        if (read.All(p => p.Spectrum is { } s && s.StartNm == first.Spectrum?.StartNm && s.StepNm == first.Spectrum.StepNm && s.Values.Length == first.Spectrum.Values.Length))
        {
            var spectrum = first.Spectrum! with { Values = [.. Enumerable.Range(0, first.Spectrum.Values.Length).Select(k => read.Zip(weights, (p, w) => w * p.Spectrum!.Values[k]).Sum())] };
            return first with { Spectrum = spectrum, Lab = TristimulusWeights.D50.ToLab(spectrum) };
        }

        double Mean(Func<Lab, double> axis) => read.Zip(weights, (p, w) => w * axis(p.Lab)).Sum();
        return first with { Spectrum = null, Lab = new(Mean(l => l.L), Mean(l => l.A), Mean(l => l.B)) };
    }

    private static double Scatter(Dictionary<string, List<(int Reading, Patch Patch)>> all, Dictionary<string, Lab> middles, int reading) =>
        Median([.. all.Where(a => a.Value.Count > 2).SelectMany(a => a.Value.Where(v => v.Reading == reading).Select(v => Distance(v.Patch.Lab, middles[a.Key])))]);

    // Against the mean of all other readings of the same patches.
    private static Lab Shift(Dictionary<string, List<(int Reading, Patch Patch)>> all, int reading)
    {
        var shared = all.Values.Where(v => v.Count > 1 && v.Any(p => p.Reading == reading)).ToArray();
        double Of(Func<Lab, double> axis) => shared.Length == 0 ? 0 : shared.Average(v =>
            axis(v.First(p => p.Reading == reading).Patch.Lab) - v.Where(p => p.Reading != reading).Select(p => axis(p.Patch.Lab)).DefaultIfEmpty(axis(v[0].Patch.Lab)).Average());
        return new(Of(l => l.L), Of(l => l.A), Of(l => l.B));
    }

    private static Lab Middle(List<(int Reading, Patch Patch)> read) => new(
        Median([.. read.Select(r => r.Patch.Lab.L)]), Median([.. read.Select(r => r.Patch.Lab.A)]), Median([.. read.Select(r => r.Patch.Lab.B)]));

    private static double Median(double[] values)
    {
        Array.Sort(values);
        return values.Length == 0 ? 0 : (values[(values.Length - 1) / 2] + values[values.Length / 2]) / 2;
    }

    private static double Distance(Lab a, Lab b) => Math.Sqrt(((a.L - b.L) * (a.L - b.L)) + ((a.A - b.A) * (a.A - b.A)) + ((a.B - b.B) * (a.B - b.B)));
}

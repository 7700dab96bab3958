using Goodsheet.Colour.Measurement;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Reads files of one chart and puts them together: read several times, in parts, or some strips again.</summary>
internal static class ReadingMerge
{
    // A whole reading that lies off by this was not calibrated, or the print was still drying: dE*ab.
    private const double ShiftShown = 1;
    private const int Shown = 20;

    public static async Task<Outcome<Merged>> OfAsync(IReadOnlyList<string> paths, MCondition? condition, CancellationToken cancel)
    {
        if (paths.Count < 2)
        {
            return new NeedsTwo();
        }

        var sets = new List<MeasurementSet>();
        foreach (var path in paths)
        {
            var read = await ChartReading.ReadAsync(path, cancel, condition);
            if (!read.Granted)
            {
                return read.Refusal;
            }

            sets.Add(read.Value.Set!);
        }

        var first = sets[0];
        if (sets.FindIndex(s => s.Space != first.Space || s.Channels != first.Channels) is >= 0 and var other)
        {
            return new NotOneChart($"reading {other + 1} has other inks than reading 1");
        }

        if (sets.FindIndex(s => s.Condition != first.Condition) is >= 0 and var light)
        {
            return new NotOneChart($"reading {light + 1} was read in {sets[light].Condition}, reading 1 in {first.Condition}");
        }

        var merged = MergedReadings.Of(sets);
        return new Merged(merged.Set, merged.Noise?.Mean.Value, [.. Words(merged)]);
    }

    private static IEnumerable<string> Words(MergedReadings merged)
    {
        for (var r = 1; r < merged.Shifts.Length; r++)
        {
            var s = merged.Shifts[r];
            if (Math.Sqrt((s.L * s.L) + (s.A * s.A) + (s.B * s.B)) is var size && size > ShiftShown)
            {
                yield return $"Reading {r + 1} as a whole lies {size:0.0} from the others: was the instrument calibrated, and the print as dry?";
            }
        }

        foreach (var d in merged.Disagreements.Take(Shown))
        {
            yield return d.LaterTaken
                ? $"Patch {d.Patch} was read as two different colours, {d.Away.Value:0.0} dE00 apart: the later reading was taken."
                : $"Patch {d.Patch} in reading {d.Reading + 1} lies {d.Away.Value:0.0} dE00 from the others and counts for little.";
        }

        if (merged.Disagreements.Count > Shown)
        {
            yield return $"{merged.Disagreements.Count - Shown} more patches disagree.";
        }
    }

    /// <param name="Set">All patches, each once.</param>
    /// <param name="Noise">By how much two readings of a patch differ on average, dE00.</param>
    /// <param name="Findings">What to know, in words.</param>
    public sealed record Merged(MeasurementSet Set, double? Noise, IReadOnlyList<string> Findings);
}

public sealed record NeedsTwo() : Refusal("Two readings or more are needed to put together.");

public sealed record NotOneChart(string Why) : Refusal($"These are not readings of one chart: {Why}. Nothing was written.");

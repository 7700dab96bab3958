using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.App.Profiles;

/// <summary>What prints of a condition look like under other lights, from the spectra of its charts.</summary>
public sealed class ShowLights(RoomStore room, FileShelf files)
{
    /// <returns>One line a light that some reading tells of; empty where there are no spectra.</returns>
    public async Task<IReadOnlyList<Line>> RunAsync(int profile, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var readings = await (
            from p in db.Profiles.AsNoTracking()
            join r in db.Readings on p.Condition equals r.Condition
            where p.Number == profile
            orderby r.Patches descending, r.Number descending
            select r).ToListAsync(cancel);
        var (lines, asRead) = (new List<Line>(), (MeasurementSet?)null);
        foreach (var (light, conditions) in (IReadOnlyList<(ViewingLight, string[])>)[
            (ViewingLight.Daylight, ["M1", "M0"]), (ViewingLight.WarmLamp, ["M0", "M1", "M2"]), (ViewingLight.UvFreeGlass, ["M2"])])
        {
            var reading = conditions.Select(c => readings.Find(r => r.MCondition == c)).FirstOrDefault(r => r is not null);
            if (reading is null || !files.Has(reading.FileHash)
                || await ChartReading.ReadAsync(files.PathOf(reading.FileHash), cancel, ChartReading.ConditionOf(reading.MCondition)) is not { Granted: true, Value.Set: { } chart }
                || !chart.Tells(light))
            {
                continue;
            }

            var seen = chart.Under(light);
            asRead ??= seen;
            lines.Add(Seen(light, reading.Number, seen, asRead));
        }

        return lines;
    }

    // Patches of both charts, each against the paper of its own light: what the eye that got used to it still sees.
    private static Line Seen(ViewingLight light, int reading, MeasurementSet seen, MeasurementSet asRead)
    {
        var (paper, usual) = (PaperReading.Of(seen), asRead.Averaged().ToDictionary(p => string.Join(' ', p.Device), p => p.Lab));
        double[] apart = [.. seen.Averaged().Where(p => usual.ContainsKey(string.Join(' ', p.Device))).Select(p => CieDe2000.Between(p.Lab, usual[string.Join(' ', p.Device)]).Value)];
        return new(light, reading, paper.White.Lab, paper.Darkest.Lab.L, apart.Length > 0 ? apart.Average() : null, apart.Length > 0 ? apart.Max() : null);
    }

    /// <param name="Light">Which.</param>
    /// <param name="Reading">The reading that tells.</param>
    /// <param name="White">The bare paper.</param>
    /// <param name="Black">L* of the darkest patch.</param>
    /// <param name="Mean">How far patches are from what they are in the first line, dE00 on average.</param>
    /// <param name="Max">At most.</param>
    public sealed record Line(ViewingLight Light, int Reading, Lab White, double Black, double? Mean, double? Max);
}

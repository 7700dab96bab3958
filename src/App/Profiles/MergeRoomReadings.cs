using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Papers;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.Profiles;

/// <summary>Makes one reading of several in the room: the same chart read again, in parts, or some of its strips.</summary>
public sealed class MergeRoomReadings(RoomStore room, FileShelf files, TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var readings = await db.Readings.AsNoTracking().Where(r => request.Readings.Contains(r.Number)).OrderBy(r => r.Number).ToListAsync(cancel);
        if (readings.Count != request.Readings.Distinct().Count() || readings.Count < 2)
        {
            return new NeedsTwo();
        }

        var last = readings[^1];
        if (readings.Exists(r => r.Condition != last.Condition || r.MCondition != last.MCondition || r.OverBlack != last.OverBlack))
        {
            return new NotOneChart("they are of different papers, printers, settings or M-conditions");
        }

        var merged = await ReadingMerge.OfAsync([.. readings.Select(r => files.PathOf(r.FileHash))], ChartReading.ConditionOf(last.MCondition), cancel);
        if (!merged.Granted)
        {
            return merged.Refusal;
        }

        var (set, name) = (merged.Value.Set, $"readings {string.Join(", ", readings.Select(r => r.Number))} together");
        var (doubts, figures) = await Task.Run(() => (ChartReading.Doubt(set, null, cancel), PaperFigures.Of(set, cancel)), cancel);
        using var text = new MemoryStream(Encoding.UTF8.GetBytes(CgatsWriter.Write(set, "Goodsheet", name)));
        var kept = await files.KeepAsync(text, cancel);
        return await room.ChangeAsync<Done>(async change =>
        {
            if (await change.Readings.FirstOrDefaultAsync(r => r.Condition == last.Condition && r.FileHash == kept.Hash, cancel) is { } again)
            {
                return new Done(again.Number);
            }

            List<string> findings = [.. doubts.Order, .. merged.Value.Findings, .. doubts.Patches.Take(20).Select(ChartReading.Words)];
            var number = (await change.Readings.MaxAsync(r => (int?)r.Number, cancel) ?? 0) + 1;
            change.Readings.Add(new()
            {
                Number = number,
                Paper = last.Paper,
                Condition = last.Condition,
                FileName = $"{name}.txt",
                FileHash = kept.Hash,
                MCondition = last.MCondition,
                Patches = set.Patches.Length,
                At = clock.GetUtcNow(),
                By = request.By,
                Findings = JsonSerializer.Serialize(findings),
                Instrument = readings.TrueForAll(r => r.Instrument == last.Instrument) ? last.Instrument : "",
                Lot = readings.TrueForAll(r => r.Lot == last.Lot) ? last.Lot : null,
                OverBlack = last.OverBlack,
                Figures = PaperLook.Write(figures),
            });
            return new Done(number);
        }, cancel);
    }

    public sealed record Request(PersonName By, IReadOnlyList<int> Readings);

    public sealed record Done(int Reading);
}

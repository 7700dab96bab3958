using System.Globalization;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Profiles;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Measurement;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Control;

/// <summary>Makes the next version of a profile from its own chart, corrected by a strip, as long work. About: "... strip NUMBER".</summary>
/// <remarks>The corrected chart is kept as a reading of its own, since later strips are held against it.</remarks>
public sealed class CorrectRoomProfile(RoomStore room, FileShelf files, TimeProvider clock, MakeProfile make) : LongWork(room)
{
    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var number = int.Parse(about.Split(' ')[^1], CultureInfo.InvariantCulture);
        await using var db = Room.Open();
        var strip = await db.StripReadings.AsNoTracking().SingleAsync(s => s.Number == number, cancel);
        var profile = await db.Profiles.AsNoTracking().SingleAsync(p => p.Number == strip.Profile, cancel);
        if (await db.ReferenceAsync(profile, cancel) is not { } reading)
        {
            return new TakeStrip.NoChart(profile.Number).Message;
        }

        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == reading.Paper, cancel);
        var compared = await StripComparison.ReadAsync(files.PathOf(reading.FileHash), files.PathOf(strip.FileHash), files.Has(profile.FileHash) ? files.PathOf(profile.FileHash) : null, cancel, ChartReading.ConditionOf(reading.MCondition));
        if (!compared.Granted)
        {
            return compared.Refusal.Message;
        }

        var verdict = compared.Value.Verdict;
        if (!verdict.CanCorrect || verdict.PrintedWrong)
        {
            return $"Nothing was changed. {verdict.Advice}";
        }

        var corrected = DriftCorrection.Of(compared.Value.Chart, compared.Value.Strip)!.Chart;
        var name = $"{paper.Name} corrected by strip {number}, {clock.Today():yyyy-MM-dd}";
        using var text = new MemoryStream(Encoding.UTF8.GetBytes(CgatsWriter.Write(corrected, "Goodsheet", name)));
        var chart = await files.KeepAsync(text, cancel);
        await tell(5);
        var done = await make.RunAsync(
            new([files.PathOf(chart.Hash)], name, Matte: paper.Coat is Coat.Dull), new Progress<double>(p => tell((int)(5 + (90 * p)))), cancel);
        if (!done.Granted)
        {
            return done.Refusal.Message;
        }

        var path = files.NewPath(".icc");
        await File.WriteAllBytesAsync(path, done.Value.File, cancel);
        var kept = await files.KeepMadeAsync(path, cancel);
        var stored = await Room.ChangeAsync<Stored>(async change =>
        {
            if (await change.Profiles.FirstOrDefaultAsync(p => p.Condition == profile.Condition && p.FileHash == kept.Hash, cancel) is { } again)
            {
                return new Stored(again.Number, again.Version);
            }

            var made = new Reading
            {
                Number = (await change.Readings.MaxAsync(r => (int?)r.Number, cancel) ?? 0) + 1,
                Paper = reading.Paper,
                Condition = reading.Condition,
                FileName = $"corrected-by-strip-{number}.txt",
                FileHash = chart.Hash,
                MCondition = reading.MCondition,
                Patches = reading.Patches,
                At = clock.GetUtcNow(),
                By = AskedBy,
                Findings = JsonSerializer.Serialize((string[])[$"Not measured: reading {reading.Number}, brought to what strip {number} says it would read now."]),
            };
            change.Readings.Add(made);
            var next = await change.NewProfileAsync(
                profile.Condition, made.Number, name, kept.Hash, done.Value.Worth,
                new(clock.GetUtcNow(), AskedBy, $"corrected by strip {number}, which brings {verdict.Before:0.00} to {verdict.After:0.00} dE00; trust it when a strip agrees"), cancel);
            change.Profiles.Add(next);
            return new Stored(next.Number, next.Version);
        }, cancel);
        return $"Profile {stored.Value!.Number} is made, version {stored.Value.Version}. {verdict.Advice} The version before is kept.";
    }

    private sealed record Stored(int Number, int Version);
}

using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Papers;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Measurement;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>Takes a measured chart into the room: what it says of the paper, and which patches look misread.</summary>
public sealed class BringInReading(RoomStore room, FileShelf files, TimeProvider clock)
{
    private const double WeakBlack = 0.35; // of D-max under what the class reaches: the wrong black, or the wrong side

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (!files.Has(request.FileHash))
        {
            return new NoSuchFile(request.FileName);
        }

        var read = await ChartReading.ReadAsync(files.PathOf(request.FileHash), cancel);
        if (!read.Granted)
        {
            return read.Refusal;
        }

        var set = read.Value.Set!;
        var doubts = await Task.Run(() => ChartReading.Doubt(set, request.Strip, cancel), cancel);
        var seen = PaperReading.Of(set);
        return await room.ChangeAsync<Done>(async db =>
        {
            var paper = await db.Papers.FindAsync([request.Paper], cancel);
            var printer = await db.Printers.FindAsync([request.Printer], cancel);
            if (paper is null || printer is null)
            {
                return new NotInThisRoom();
            }

            var rule = await db.ClassRules.SingleAsync(r => r.Class == paper.Class, cancel);
            List<string> findings = [.. doubts.Order, .. read.Value.Findings.Select(f => f.Message)];
            findings.AddRange(doubts.Patches.Take(20).Select(s => $"Patch {s.Patch} is {s.Off:0.0} dE00 from what all others foretell: read it again."));
            if (seen.WhiteIsBare)
            {
                var white = seen.White.Lab;
                (paper.WhiteL, paper.WhiteA, paper.WhiteB) = (white.L, white.A, white.B);
                (paper.WhiteCondition, paper.DMax) = (set.Condition.ToString(), seen.DMax);
                paper.BrightenerMeasured = await BrightenerAsync(db, paper.Code, seen, cancel) ?? paper.BrightenerMeasured;
                if (seen.DMax < rule.LeastDMax - WeakBlack)
                {
                    findings.Add($"The darkest patch has a density of {seen.DMax:0.00}; {HandlingAdvice.ClassWords(paper.Class)} reaches {rule.LeastDMax:0.0} and more. Was it the wrong black, or the wrong side?");
                }
            }

            var condition = db.ConditionFor(paper, printer, request.MediaSetting, request.By, clock.GetUtcNow());
            var reading = new Reading
            {
                Number = (await db.Readings.MaxAsync(r => (int?)r.Number, cancel) ?? 0) + 1,
                Paper = paper.Code,
                Condition = condition.Code,
                FileName = request.FileName,
                FileHash = request.FileHash,
                MCondition = set.Condition is MCondition.Unknown ? "not stated" : set.Condition.ToString(),
                Patches = set.Patches.Length,
                At = clock.GetUtcNow(),
                By = request.By,
                Findings = JsonSerializer.Serialize(findings),
            };
            db.Readings.Add(reading);
            return new Done(reading.Number);
        }, cancel);
    }

    // Known once the paper was read both with and without ultraviolet.
    private async Task<Brightener?> BrightenerAsync(RoomDb db, PaperCode paper, PaperReading seen, CancellationToken cancel)
    {
        string[] others = seen.Condition is MCondition.M2 ? ["M0", "M1"] : ["M2"];
        var other = await db.Readings.AsNoTracking().Where(r => r.Paper == paper && others.Contains(r.MCondition))
            .OrderByDescending(r => r.Number).FirstOrDefaultAsync(cancel);
        if (other is null || !files.Has(other.FileHash) || await ChartReading.ReadAsync(files.PathOf(other.FileHash), cancel) is not { Granted: true } read)
        {
            return null;
        }

        var second = PaperReading.Of(read.Value.Set!);
        return AssessPaper.Class(seen.Condition is MCondition.M2 ? second.BrightenerAgainst(seen) : seen.BrightenerAgainst(second));
    }

    public sealed record Request(
        PersonName By, string FileHash, string FileName, PaperCode Paper, PrinterCode Printer, string MediaSetting, int? Strip = null);

    public sealed record Done(int Reading);

    public sealed record NotInThisRoom() : Refusal("The room has no such paper or printer. Nothing was kept.");
}

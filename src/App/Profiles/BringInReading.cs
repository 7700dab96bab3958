using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
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
        var suspects = await Task.Run(() => ChartReading.Suspects(set, cancel), cancel);
        var paperSeen = PaperAssessment.Of(set);
        return await room.ChangeAsync<Done>(async db =>
        {
            var paper = await db.Papers.FindAsync([request.Paper], cancel);
            var printer = await db.Printers.FindAsync([request.Printer], cancel);
            if (paper is null || printer is null)
            {
                return new NotInThisRoom();
            }

            var rule = await db.ClassRules.SingleAsync(r => r.Class == paper.Class, cancel);
            List<string> findings = [.. read.Value.Findings.Select(f => f.Message)];
            findings.AddRange(suspects.Take(20).Select(s => $"Patch {s.Patch} is {s.Off:0.0} dE00 from what all others foretell: read it again."));
            if (paperSeen is not null)
            {
                (paper.WhiteL, paper.WhiteA, paper.WhiteB) = (paperSeen.White.L, paperSeen.White.A, paperSeen.White.B);
                (paper.WhiteCondition, paper.DMax) = (set.Condition.ToString(), paperSeen.DMax);
                if (paperSeen.DMax < rule.LeastDMax - WeakBlack)
                {
                    findings.Add($"The darkest patch has a density of {paperSeen.DMax:0.00}; {HandlingAdvice.ClassWords(paper.Class)} reaches {rule.LeastDMax:0.0} and more. Was it the wrong black, or the wrong side?");
                }
            }

            var condition = await ConditionAsync(db, paper, printer, request.MediaSetting, cancel);
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

    // The condition is known by printer, paper and media setting; a new one starts its fingerprint.
    private async Task<PrintingCondition> ConditionAsync(RoomDb db, Paper paper, Printer printer, string media, CancellationToken cancel)
    {
        var known = await db.Conditions.FirstOrDefaultAsync(
            c => c.Printer == printer.Code && c.Paper == paper.Code && c.MediaSetting == media, cancel);
        if (known is not null)
        {
            return known;
        }

        var count = await db.Conditions.CountAsync(c => c.Printer == printer.Code && c.Paper == paper.Code, cancel);
        var condition = new PrintingCondition
        {
            Code = new($"{printer.Code}-{paper.Code}{(count == 0 ? "" : $"-{count + 1}")}"),
            Printer = printer.Code,
            Paper = paper.Code,
            MediaSetting = media,
            Ppi = printer.Ppi,
            Black = paper.BlackFor(printer.Inks),
        };
        db.Conditions.Add(condition);
        db.Fingerprints.Add(new()
        {
            Condition = condition.Code,
            Number = 1,
            Firmware = printer.Firmware,
            Driver = printer.Driver,
            System = Environment.OSVersion.VersionString,
            Ink = "",
            At = clock.GetUtcNow(),
            By = PersonName.TheRoom,
        });
        return condition;
    }

    public sealed record Request(
        PersonName By, string FileHash, string FileName, PaperCode Paper, PrinterCode Printer, string MediaSetting);

    public sealed record Done(int Reading);

    public sealed record NotInThisRoom() : Refusal("The room has no such paper or printer. Nothing was kept.");
}

using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Papers;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Profiles;

/// <summary>Takes a measured chart into the room: what it says of the paper, and which patches look misread.</summary>
public sealed class BringInReading(RoomStore room, FileShelf files, TimeProvider clock)
{
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
        var seen = await Task.Run(() => PaperFigures.Of(set, cancel), cancel);
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
            if (request.Lot is { } lot && !await db.Lots.AnyAsync(l => l.Code == lot && l.Paper == paper.Code, cancel))
            {
                return new NotALotOfThisPaper(lot);
            }

            if (request.HoursAfter is < 0 or > 10_000)
            {
                return new NotHours(request.HoursAfter.Value);
            }

            var condition = db.ConditionFor(paper, printer, request.MediaSetting, request.By, clock.GetUtcNow());
            if (seen.White is { } white && !request.OverBlack)
            {
                (paper.WhiteL, paper.WhiteA, paper.WhiteB) = (white.L, white.A, white.B);
                (paper.WhiteCondition, paper.DMax) = (set.Condition.ToString(), seen.DMax);
                paper.GamutVolume = seen.Volume ?? paper.GamutVolume;
                paper.BrightenerMeasured = await BrightenerAsync(db, paper.Code, seen, cancel) ?? paper.BrightenerMeasured;
                var before = await EarlierAsync(db, condition.Code, seen, cancel);
                findings.AddRange(PaperFinding.Of(seen, rule, before.Figures, before.Lot != request.Lot && before.Lot is not null).Select(f => $"{f.Evidence} {f.Do}"));
            }

            var reading = new Reading
            {
                Number = (await db.Readings.MaxAsync(r => (int?)r.Number, cancel) ?? 0) + 1,
                Paper = paper.Code,
                Condition = condition.Code,
                FileName = request.FileName,
                FileHash = request.FileHash,
                MCondition = Word(set.Condition),
                Patches = set.Patches.Length,
                At = clock.GetUtcNow(),
                By = request.By,
                Findings = JsonSerializer.Serialize(findings),
                Instrument = request.Instrument?.Trim() ?? "",
                Lot = request.Lot,
                HoursAfter = request.HoursAfter,
                OverBlack = request.OverBlack,
                Figures = PaperLook.Write(seen),
            };
            db.Readings.Add(reading);
            return new Done(reading.Number);
        }, cancel);
    }

    // Known once the paper was read both with and without ultraviolet.
    private static async Task<Brightener?> BrightenerAsync(RoomDb db, PaperCode paper, PaperFigures seen, CancellationToken cancel)
    {
        string[] others = seen.Condition is MCondition.M2 ? ["M1", "M0"] : ["M2"];
        var kept = await db.Readings.AsNoTracking().Where(r => r.Paper == paper && !r.OverBlack && others.Contains(r.MCondition))
            .OrderByDescending(r => r.Number).Select(r => r.Figures).FirstOrDefaultAsync(cancel);
        return PaperLook.Read(kept) is not { } other ? null
            : seen.Condition is MCondition.M2 ? PaperVerdict.Of(other, seen).Brightener : PaperVerdict.Of(seen, other).Brightener;
    }

    // The last whole chart of the same condition, read the same way.
    private static async Task<(PaperFigures? Figures, LotCode? Lot)> EarlierAsync(RoomDb db, ConditionCode condition, PaperFigures seen, CancellationToken cancel)
    {
        var word = Word(seen.Condition);
        var before = await db.Readings.AsNoTracking().Where(r => r.Condition == condition && r.MCondition == word && !r.OverBlack && r.Figures != null)
            .OrderByDescending(r => r.Number).FirstOrDefaultAsync(cancel);
        return (PaperLook.Read(before?.Figures), before?.Lot);
    }

    private static string Word(MCondition condition) => condition is MCondition.Unknown ? "not stated" : condition.ToString();

    /// <param name="Strip">Patches to a strip, where it was said.</param>
    /// <param name="Lot">The lot printed on, where it was said.</param>
    /// <param name="HoursAfter">Hours between print and reading, for one of several timed readings.</param>
    /// <param name="OverBlack">Whether black lay under the sheet.</param>
    /// <param name="Instrument">The serial of the instrument.</param>
    public sealed record Request(
        PersonName By, string FileHash, string FileName, PaperCode Paper, PrinterCode Printer, string MediaSetting, int? Strip = null,
        LotCode? Lot = null, double? HoursAfter = null, bool OverBlack = false, string? Instrument = null);

    public sealed record Done(int Reading);

    public sealed record NotInThisRoom() : Refusal("The room has no such paper or printer. Nothing was kept.");

    public sealed record NotALotOfThisPaper(LotCode Lot) : Refusal($"{Lot} is not a lot of this paper. Nothing was kept.");

    public sealed record NotHours(double Hours) : Refusal($"{Hours:0.#} hours after printing cannot be. Nothing was kept.");
}

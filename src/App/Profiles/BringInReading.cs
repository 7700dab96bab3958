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

        if (request.HoursAfter is < 0 or > 10_000)
        {
            return new NotHours(request.HoursAfter.Value);
        }

        var read = await ChartReading.ReadAsync(files.PathOf(request.FileHash), cancel);
        if (!read.Granted)
        {
            return read.Refusal;
        }

        // A file with several M-conditions makes a reading of each; the one that a profile is made of comes last.
        var set = read.Value.Set!;
        List<Taken> taken = [];
        foreach (var condition in read.Value.Conditions.Where(c => c != set.Condition))
        {
            var other = await ChartReading.ReadAsync(files.PathOf(request.FileHash), cancel, condition);
            if (!other.Granted)
            {
                return other.Refusal;
            }

            taken.Add(new(other.Value.Set!, new([], []), await Task.Run(() => PaperFigures.Of(other.Value.Set!, cancel), cancel)));
        }

        taken.Add(await Task.Run(() => new Taken(set, ChartReading.Doubt(set, request.Strip, cancel), PaperFigures.Of(set, cancel)), cancel));
        return await room.ChangeAsync<Done>(async db =>
        {
            var paper = await db.Papers.FindAsync([request.Paper], cancel);
            var printer = await db.Printers.FindAsync([request.Printer], cancel);
            if (paper is null || printer is null)
            {
                return new NotInThisRoom();
            }

            if (request.Lot is { } lot && !await db.Lots.AnyAsync(l => l.Code == lot && l.Paper == paper.Code, cancel))
            {
                return new NotALotOfThisPaper(lot);
            }

            var condition = db.ConditionFor(paper, printer, request.MediaSetting, request.By, clock.GetUtcNow());
            var number = await db.Readings.MaxAsync(r => (int?)r.Number, cancel) ?? 0;
            foreach (var one in taken)
            {
                List<string> findings = [.. one.Doubts.Order, .. read.Value.Findings.Select(ChartReading.Noted), .. one.Doubts.Patches.Take(20).Select(ChartReading.Words)];
                if (one.Figures.White is not null && !request.OverBlack)
                {
                    var earlier = await EarlierReading.OfAsync(db, files, condition.Code, one.Set.Condition, cancel);
                    findings.AddRange(await OfPaperAsync(db, paper, one, taken, earlier, request.Lot, cancel));
                }

                db.Readings.Add(new()
                {
                    Number = ++number,
                    Paper = paper.Code,
                    Condition = condition.Code,
                    FileName = request.FileName,
                    FileHash = request.FileHash,
                    MCondition = ChartReading.Stored(one.Set.Condition),
                    Patches = one.Set.Patches.Length,
                    At = clock.GetUtcNow(),
                    By = request.By,
                    Findings = JsonSerializer.Serialize(findings),
                    Instrument = request.Instrument?.Trim() ?? "",
                    Lot = request.Lot,
                    HoursAfter = request.HoursAfter,
                    OverBlack = request.OverBlack,
                    Figures = PaperLook.Write(one.Figures),
                });
            }

            return new Done(number);
        }, cancel);
    }

    // What the reading says of the paper is written down with the paper, and what looks wrong with it is told.
    private static async Task<IReadOnlyList<string>> OfPaperAsync(
        RoomDb db, Paper paper, Taken one, List<Taken> together, EarlierReading? earlier, LotCode? lot, CancellationToken cancel)
    {
        var (seen, white) = (one.Figures, one.Figures.White!.Value);
        (paper.WhiteL, paper.WhiteA, paper.WhiteB) = (white.L, white.A, white.B);
        (paper.WhiteCondition, paper.DMax) = (one.Set.Condition.ToString(), seen.DMax);
        paper.GamutVolume = seen.Volume ?? paper.GamutVolume;
        var other = together.Select(t => t.Figures).FirstOrDefault(f => f.Condition is MCondition.M2 != seen.Condition is MCondition.M2);
        paper.BrightenerMeasured = (other is null ? await BrightenerAsync(db, paper.Code, seen, cancel) : Brightener(seen, other)) ?? paper.BrightenerMeasured;

        var rule = await db.ClassRules.SingleAsync(r => r.Class == paper.Class, cancel);
        var black = earlier?.Black(one.Set);
        return
        [
            .. earlier?.White(seen) is { } moved ? [moved] : Array.Empty<string>(),
            .. black is null ? Array.Empty<string>() : [black],
            .. PaperFinding.Of(seen, rule, earlier?.Figures, earlier?.Lot is { } before && before != lot)
                .Where(f => black is null || f.Fault is not PaperFault.WrongBlack).Select(f => $"{f.Evidence} {f.Do}"),
        ];
    }

    // Known once the paper was read both with and without ultraviolet.
    private static async Task<Brightener?> BrightenerAsync(RoomDb db, PaperCode paper, PaperFigures seen, CancellationToken cancel)
    {
        string[] others = seen.Condition is MCondition.M2 ? ["M1", "M0"] : ["M2"];
        var kept = await db.Readings.AsNoTracking().Where(r => r.Paper == paper && !r.OverBlack && others.Contains(r.MCondition))
            .OrderByDescending(r => r.Number).Select(r => r.Figures).FirstOrDefaultAsync(cancel);
        return PaperLook.Read(kept) is { } other ? Brightener(seen, other) : null;
    }

    private static Brightener? Brightener(PaperFigures seen, PaperFigures other) =>
        seen.Condition is MCondition.M2 ? PaperVerdict.Of(other, seen).Brightener : PaperVerdict.Of(seen, other).Brightener;

    private sealed record Taken(MeasurementSet Set, Doubts Doubts, PaperFigures Figures);

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

using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Care;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Care;

/// <summary>What is to be cared for today, what stood open too long, and which waste missed care may explain.</summary>
public sealed class ShowCare(RoomStore room, TimeProvider clock)
{
    /// <summary>Waste of so many days is looked through.</summary>
    public const int WasteDays = 30;

    private const int WasteShown = 20;

    public async Task<Page> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var (now, today, zone) = (clock.GetUtcNow(), clock.Today(), clock.LocalTimeZone);
        var tasks = await db.CareTasks.AsNoTracking().OrderBy(t => t.Number).ToListAsync(cancel);
        var bands = await db.CareBands.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
        var latest = await db.Climate.AsNoTracking().Where(c => c.At <= now).OrderByDescending(c => c.At).FirstOrDefaultAsync(cancel);
        return new(
            today,
            [.. tasks.Where(t => t.IsDue(today, zone)).OrderBy(t => t.At ?? TimeOnly.MaxValue)],
            [.. tasks.Where(t => !t.IsDue(today, zone)).OrderBy(t => t.LastAt!.Value.AddDays(t.EveryDays))],
            bands, latest, await OpenAsync(db, bands, today, cancel), await WasteAsync(db, tasks, bands, now, zone, cancel));
    }

    private static async Task<IReadOnlyList<OpenBox>> OpenAsync(RoomDb db, CareBands bands, DateOnly today, CancellationToken cancel)
    {
        var left = await ShelfLines.Left(db).ToDictionaryAsync(l => l.Lot, cancel);
        var lots = await db.Lots.AsNoTracking().Where(l => l.Opened != null).OrderBy(l => l.Opened).ToListAsync(cancel);
        return [.. lots.Where(l => left.ContainsKey(l.Code) && l.Condition is LotCondition.Sound)
            .Select(l => new OpenBox(l, today.DayNumber - l.Opened!.Value.DayNumber))
            .Where(b => b.Days > bands.OpenDays)];
    }

    private static async Task<IReadOnlyList<Waste>> WasteAsync(
        RoomDb db, List<CareTask> tasks, CareBands bands, DateTimeOffset now, TimeZoneInfo zone, CancellationToken cancel)
    {
        var since = now.AddDays(-WasteDays);
        var causes = Enum.GetValues<WasteCause>().ToDictionary(Account.Waste);
        var accounts = causes.Keys.ToList();
        var moves = await (
            from move in db.Moves.AsNoTracking()
            join lot in db.Lots on move.Lot equals lot.Code
            join format in db.Formats on lot.Format equals format.Code
            where move.At >= since && accounts.Contains(move.To)
            orderby move.At descending
            select new { Move = move, lot.Paper, lot.Format, format.IsRoll }).ToListAsync(cancel);
        var oldest = since.AddDays(-tasks.Select(t => t.EveryDays).DefaultIfEmpty(0).Max() * 2);
        var done = (await db.CareDone.AsNoTracking().Where(d => d.At >= oldest).Select(d => new { d.Task, d.At }).ToListAsync(cancel))
            .ToLookup(d => d.Task, d => Day(d.At));
        var air = (await db.Climate.AsNoTracking().Where(c => c.At >= since.AddDays(-1) && c.At <= now).OrderBy(c => c.At).ToListAsync(cancel))
            .ToLookup(c => Day(c.At));
        var plan = await db.PlanSettings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new PlanSettings();
        return
        [
            .. moves.Select(m => new Waste(m.Move, m.Paper, m.Format, m.IsRoll, causes[m.Move.To], Lapses(m.Move, causes[m.Move.To]), Air(m.Move, causes[m.Move.To])))
                .Where(w => w.Lapses.Count > 0 || w.Air is not null).Take(WasteShown),
        ];

        DateOnly Day(DateTimeOffset at) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(at, zone).DateTime);

        List<Lapse> Lapses(Move move, WasteCause cause) =>
        [
            .. tasks.Where(t => t.Against == cause && (t.Printer is not { } printer || move.From == Account.At(printer)))
                .Select(t => Lapse.On(t, done[t.Number], Day(move.At), day => plan.WorksOn(day.DayOfWeek))).OfType<Lapse>(),
        ];

        // Dry air curls paper, lifts its edges into the head and draws dust; damp air swells it. Common practice, no source.
        ClimateReading? Air(Move move, WasteCause cause) => cause is WasteCause.Curl or WasteCause.HeadStrike or WasteCause.Dust
            ? air[Day(move.At)].FirstOrDefault(c => !bands.HoldsHumidity(c.Humidity)) : null;
    }

    /// <param name="Due">To do today, in the order of the day.</param>
    /// <param name="Later">Not due yet, soonest first.</param>
    /// <param name="Explained">Waste beside which care was missed or the air was outside the room's band.</param>
    public sealed record Page(
        DateOnly Today, IReadOnlyList<CareTask> Due, IReadOnlyList<CareTask> Later, CareBands Bands, ClimateReading? Latest,
        IReadOnlyList<OpenBox> Open, IReadOnlyList<Waste> Explained);

    /// <summary>A box that has stood open longer than the room wishes.</summary>
    public sealed record OpenBox(Lot Lot, int Days);

    /// <summary>Waste, and what may explain it: that is all a record can say.</summary>
    public sealed record Waste(
        Move Move, PaperCode Paper, FormatCode Format, bool IsRoll, WasteCause Cause, IReadOnlyList<Lapse> Lapses, ClimateReading? Air);
}

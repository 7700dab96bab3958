using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Care;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Plan;

/// <summary>What one person leaves to the next, in the evening or at noon: what prints, what dries and until when, what waits. It asks; it owns nothing.</summary>
public sealed class ShowHandover(RoomStore room, TimeProvider clock)
{
    private const int NoteHours = 24;
    private const int Shown = 50;

    public async Task<Page> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var now = clock.GetUtcNow();
        var day = await RoomDay.ReadAsync(db, now, null, cancel);
        var closes = Closes(day);
        var rolls = await db.Formats.AsNoTracking().Where(f => f.IsRoll).Select(f => f.Code).ToListAsync(cancel);
        var papers = await db.Papers.AsNoTracking().ToDictionaryAsync(p => p.Code, cancel);
        var names = day.Printers.ToDictionary(p => p.Code, p => p.Name);
        var orders = await DoneAsync(db, cancel);
        var planned = await (
            from run in db.Runs.AsNoTracking()
            join printer in db.Printers on run.Printer equals printer.Code
            where run.State == RunState.Planned
            select new { Run = run, Printer = printer.Name, Prints = db.RunPrints.Where(p => p.Run == run.Number).Sum(p => p.Copies), Orders = db.RunPrints.Where(p => p.Run == run.Number).Select(p => p.Order).ToList() }).ToListAsync(cancel);
        var promised = await db.Orders.AsNoTracking().Where(o => o.State != OrderState.Done && o.State != OrderState.Cancelled).ToDictionaryAsync(o => o.Number, o => o.Promised, cancel);
        return new(
            now, closes,
            [.. day.Begun.OrderBy(b => b.To).Select(b => new Printing(
                b.Run, names[b.Run.Printer], papers[b.Run.Paper].Name, b.Prints, day.At(b.To), day.At(b.Dry),
                AfterHoursRule.Of(papers[b.Run.Paper].FeedFrom(rolls.Contains(b.Run.Format)), day.At(b.To), closes ?? now)))],
            [.. orders.Where(o => o.DryAt > now).OrderBy(o => o.DryAt)],
            [.. orders.Where(o => !(o.DryAt > now)).OrderBy(o => o.Order.Promised)],
            [.. planned.OrderBy(r => r.Run.PlannedAt).ThenBy(r => r.Run.Number)
                .Select(r => new Left(r.Run, r.Printer, papers[r.Run.Paper].Name, r.Prints, r.Orders.Where(promised.ContainsKey).Select(o => (DateTimeOffset?)promised[o]).Min()))],
            await db.Orders.CountAsync(o => o.State == OrderState.Done && o.OutAt == null, cancel) - orders.Count,
            await CareAsync(db, day, cancel), names, await NotesAsync(db, now, cancel));
    }

    // The next time the last person goes; none when the room is closed now.
    private static DateTimeOffset? Closes(RoomDay day) => day.Work.Rules.Hours is [var (from, to), ..] && from <= 0 ? day.At(to) : null;

    // Every print is good, and the client has it not yet.
    private static async Task<List<Finishing>> DoneAsync(RoomDb db, CancellationToken cancel)
    {
        var orders = await (
            from order in db.Orders.AsNoTracking()
            join client in db.Clients on order.Client equals client.Number
            where order.State == OrderState.Done && order.OutAt == null
            orderby order.Promised, order.Number
            select new { Order = order, client.Name }).Take(Shown).ToListAsync(cancel);
        var steps = (await db.FinishSteps.AsNoTracking().Where(s => db.Orders.Any(o => o.Number == s.Order && o.State == OrderState.Done && o.OutAt == null)).ToListAsync(cancel)).ToLookup(s => s.Order);
        var done = new List<Finishing>();
        foreach (var order in orders)
        {
            var its = steps[order.Order.Number].OrderBy(s => s.Number).ToList();
            var cutShort = its.Exists(s => s is { Kind: FinishKind.DryDown, DoneAt: not null });
            var dry = cutShort ? null : DryDown.At(await Orders.ShowFinishing.MadeAsync(db, order.Order.Number, cancel));
            done.Add(new(order.Order, order.Name, dry, its.Find(s => s.DoneAt is null && s.Kind is not FinishKind.DryDown)?.Text, its.Count > 0));
        }

        return done;
    }

    private static async Task<IReadOnlyList<CareTask>> CareAsync(RoomDb db, RoomDay day, CancellationToken cancel)
    {
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(day.Now, day.Zone).DateTime);
        return [.. (await db.CareTasks.AsNoTracking().OrderBy(t => t.Number).ToListAsync(cancel)).Where(t => t.IsDue(today, day.Zone)).OrderBy(t => t.At ?? TimeOnly.MaxValue)];
    }

    private static async Task<IReadOnlyList<Note>> NotesAsync(RoomDb db, DateTimeOffset now, CancellationToken cancel)
    {
        var since = now.AddHours(-NoteHours);
        return await (
            from done in db.CareDone.AsNoTracking()
            join task in db.CareTasks on done.Task equals task.Number
            where done.At >= since && done.Note != ""
            orderby done.At descending
            select new Note(done.At, done.By.Value, task.Name, done.Note)).ToListAsync(cancel);
    }

    /// <param name="Closes">When the room closes next; none when it is closed.</param>
    /// <param name="Drying">Orders whose prints are not dry yet, the soonest first.</param>
    /// <param name="ToFinish">Orders whose prints are dry and that the client has not yet.</param>
    /// <param name="Left">Runs that were not begun, in the plan's order.</param>
    /// <param name="More">Orders with every print good, promised later than those looked at here, that the client has not yet.</param>
    /// <param name="Care">Rounds that are due.</param>
    /// <param name="Printers">What the printers are called.</param>
    /// <param name="Notes">What was noted at rounds in the last day and night.</param>
    public sealed record Page(
        DateTimeOffset Now, DateTimeOffset? Closes, IReadOnlyList<Printing> Printing, IReadOnlyList<Finishing> Drying, IReadOnlyList<Finishing> ToFinish, IReadOnlyList<Left> Left, int More,
        IReadOnlyList<CareTask> Care, IReadOnlyDictionary<PrinterCode, string> Printers, IReadOnlyList<Note> Notes);

    /// <param name="Ends">As it was reckoned, and never before now.</param>
    public sealed record Printing(Run Run, string Printer, string Paper, int Prints, DateTimeOffset Ends, DateTimeOffset Dry, AfterHours After);

    /// <param name="DryAt">None when they need not dry, or somebody said they are.</param>
    /// <param name="Next">The step that comes next after drying; none when all are ticked, or none were made.</param>
    public sealed record Finishing(Order Order, string Client, DateTimeOffset? DryAt, string? Next, bool HasSteps);

    /// <param name="Promised">The soonest promise of its prints.</param>
    public sealed record Left(Run Run, string Printer, string Paper, int Prints, DateTimeOffset? Promised);

    public sealed record Note(DateTimeOffset At, string By, string Task, string Text);
}

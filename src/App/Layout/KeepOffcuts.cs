using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Runs;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Layout;

/// <summary>Puts the usable offcuts of a run that is printed on the shelf, each size as a lot that knows what it was cut from.</summary>
public sealed class KeepOffcuts(RoomStore room, TimeProvider clock)
{
    private const int OffcutsComeLast = 900;

    /// <summary>Offcuts of a printed run that are worth keeping and were not kept yet.</summary>
    public async Task<IReadOnlyList<Offcut>> ShowAsync(int run, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.Runs.AsNoTracking().SingleOrDefaultAsync(r => r.Number == run, cancel) is { State: RunState.Done or RunState.Stopped } found
            && !await IsKeptAsync(db, run, cancel)
            ? await OfAsync(db, found, cancel)
            : [];
    }

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow(), "offcut", Reference(request.Run));
            var before = await db.GrantedBeforeAsync(wish, $"{request} {string.Join("; ", request.Kept)}", cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (before.Value)
            {
                return new Done([.. (await db.MovesOfAsync(request.Command, cancel)).Select(m => m.Lot)]);
            }

            if (await db.Runs.FindAsync([request.Run], cancel) is not { Lot: { } from } run)
            {
                return new NoSuchRun(request.Run);
            }

            if (run.State is not (RunState.Done or RunState.Stopped))
            {
                return new IsNotPrinted(run.Number);
            }

            if (await IsKeptAsync(db, run.Number, cancel))
            {
                return new KeptAlready(run.Number);
            }

            var there = await OfAsync(db, run, cancel);
            var kept = request.Kept.Where(k => k.Pieces > 0).ToList();
            if (kept.Count == 0 || kept.Exists(k => !there.Any(o => o.Width == k.Width && o.Height == k.Height && k.Pieces <= o.Pieces)))
            {
                return new NotThere(run.Number);
            }

            var whole = (await db.Lots.FindAsync([from], cancel))!;
            var made = new List<LotCode>();
            foreach (var (offcut, i) in kept.Select((k, i) => (k, i)))
            {
                var lot = await PutAsync(db, whole, offcut, made.Count, cancel);
                var nothing = LotBalance.Nothing(lot.Code);
                await db.AddAsync(lot.PutTrimmed(nothing, offcut.Pieces, wish, line: i + 1), nothing, cancel);
                made.Add(lot.Code);
            }

            return new Done(made);
        }, cancel);

    private async Task<Lot> PutAsync(RoomDb db, Lot whole, Offcut offcut, int before, CancellationToken cancel)
    {
        var format = await FormatAsync(db, offcut, cancel);
        if (await db.Items.FindAsync([whole.Paper, format], cancel) is null)
        {
            db.Items.Add(new() { Paper = whole.Paper, Format = format, PackSize = offcut.Pieces, Place = whole.Place });
        }

        if (before > 0)
        {
            await db.SaveChangesAsync(cancel); // so that the next code is another
        }

        var lot = new Lot
        {
            Code = await PutAway.NextAsync(db, cancel),
            Paper = whole.Paper,
            Format = format,
            Received = clock.Today(),
            BestBefore = whole.BestBefore,
            ExtendedTo = whole.ExtendedTo,
            Opened = clock.Today(),
            Place = whole.Place,
            Condition = whole.Condition,
            ConditionWhy = whole.ConditionWhy,
            Supplier = whole.Supplier,
            MakersNumber = whole.MakersNumber,
            CutFrom = whole.Code,
        };
        db.Lots.Add(lot);
        return lot;
    }

    private static async Task<FormatCode> FormatAsync(RoomDb db, Offcut offcut, CancellationToken cancel)
    {
        var same = await db.Formats.FirstOrDefaultAsync(f => !f.IsRoll && f.Width == offcut.Width && f.Height == offcut.Height, cancel);
        if (same is not null)
        {
            return same.Code;
        }

        var code = new FormatCode(string.Create(CultureInfo.InvariantCulture, $"{offcut.Width.Millimetres:0}x{offcut.Height.Millimetres:0} mm"));
        db.Formats.Add(new() { Code = code, IsRoll = false, Width = offcut.Width, Height = offcut.Height, Order = OffcutsComeLast });
        await db.SaveChangesAsync(cancel);
        return code;
    }

    /// <summary>By size, to the whole mm that is surely there, shorter side first; those on paper that was not printed stay with it.</summary>
    private static async Task<IReadOnlyList<Offcut>> OfAsync(RoomDb db, Run run, CancellationToken cancel)
    {
        var layout = RunLayout.Read(run.Layout);
        var reference = Reference(run.Number);
        var back = await db.Moves.Where(m => m.Reference == reference && m.To == Account.Shelf && m.Lot == run.Lot).SumAsync(m => (long?)m.Quantity, cancel) ?? 0;
        var printed = run.Needs - back;
        var least = (await db.LayoutSettings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new()).LeastOffcut.Millimetres;
        return
        [
            .. layout.Sheets.Take(layout.IsRoll ? 1 : (int)printed).SelectMany(s => s.Left ?? s.Offcuts)
                .Where(o => !layout.IsRoll || o.Y + o.Height <= printed)
                .Select(o => (Short: Math.Floor(Math.Min(o.Width, o.Height)), Long: Math.Floor(Math.Max(o.Width, o.Height))))
                .Where(o => o.Short >= least).GroupBy(o => o).OrderByDescending(g => g.Key.Short * g.Key.Long)
                .Select(g => new Offcut(Length.NearestToMillimetres(g.Key.Short), Length.NearestToMillimetres(g.Key.Long), g.Count())),
        ];
    }

    private static Task<bool> IsKeptAsync(RoomDb db, int run, CancellationToken cancel)
    {
        var reference = Reference(run);
        return db.Moves.AnyAsync(m => m.Reference == reference && m.From == Account.Trimmed, cancel);
    }

    private static string Reference(int run) => $"run {run}";

    /// <param name="Kept">Sizes and how many of each; what is left out is waste.</param>
    public sealed record Request(CommandId Command, PersonName By, int Run, IReadOnlyList<Offcut> Kept);

    /// <param name="Width">Its shorter side.</param>
    /// <param name="Height">Its longer side.</param>
    public sealed record Offcut(Length Width, Length Height, int Pieces);

    public sealed record Done(IReadOnlyList<LotCode> Lots);

    public sealed record IsNotPrinted(int Run) : Refusal($"Run {Run} is not printed yet: record it first. Nothing was put away.");

    public sealed record KeptAlready(int Run) : Refusal($"The offcuts of run {Run} were put away already. Count the lot if there are more. Nothing was put away.");

    public sealed record NotThere(int Run) : Refusal($"Run {Run} left no such offcuts, or none was chosen. Nothing was put away.");
}

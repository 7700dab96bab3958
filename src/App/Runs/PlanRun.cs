using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Layout;
using Goodsheet.App.Orders;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Runs;

/// <summary>Puts the prints of an order that are ready on paper of one lot, and issues the run card.</summary>
public sealed class PlanRun(RoomStore room, TimeProvider clock)
{
    private const int FirstRun = 401;
    private const int Seed = 1;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow());
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (before.Value)
            {
                return new Done(await db.RunPrints.Where(r => r.Order == request.Order).MaxAsync(r => r.Run, cancel));
            }

            var lines = await db.PrintLines.Where(l => l.Order == request.Order && l.PreparedHash != null).ToListAsync(cancel);
            var open = await RunPaper.OpenCopiesAsync(db, null, cancel);
            var copies = lines.ToDictionary(l => l.Line, l => l.ToPrint - open.GetValueOrDefault((l.Order, l.Line)));
            lines = [.. lines.Where(l => copies[l.Line] > 0)];
            var lot = await db.Lots.FindAsync([request.Lot], cancel);
            if (lines.Count == 0)
            {
                return new NothingIsReady(request.Order);
            }

            if (lot is null)
            {
                return new NoSuchLot(request.Lot);
            }

            if (lines.Any(l => l.Paper != lot.Paper))
            {
                return new LotIsOfAnotherPaper(lot.Code, lot.Paper);
            }

            if (!ShelfRules.MayGoToClient(lot, clock.Today()))
            {
                return lot.Condition is LotCondition.Sound ? new LotOutOfDate(lot.Code, lot.GoodUntil!.Value) : new LotIsNotSound(lot.Code, lot.Condition, lot.ConditionWhy);
            }

            if (await ProfileOfAsync(db, lines, lot.Paper, cancel) is not { } profile)
            {
                return new NoTrustedProfile(lot.Paper);
            }

            var condition = await db.Conditions.SingleAsync(c => c.Code == profile.Condition, cancel);
            var format = await db.Formats.SingleAsync(f => f.Code == lot.Format, cancel);
            var printer = await db.Printers.SingleAsync(p => p.Code == condition.Printer, cancel);
            var paper = await RunPaper.OfAsync(db, format, printer, lot.Paper, cancel);
            var nest = paper.Lay([.. lines.Select(l => paper.Of(l, copies[l.Line]))], [], Seed, clock);
            if (!nest.Granted)
            {
                return nest.Refusal;
            }

            var layout = RunLayout.Of(nest.Value, lines);
            var needs = layout.Needs;
            var has = (await db.BalanceAsync(lot.Code, cancel)).OnShelf;
            if (needs > has)
            {
                return new NotEnough(lot.Code, Account.Shelf, needs, has);
            }

            var run = new Run
            {
                Number = Math.Max(FirstRun, (await db.Runs.MaxAsync(r => (int?)r.Number, cancel) ?? 0) + 1),
                Printer = condition.Printer,
                Paper = lot.Paper,
                Format = lot.Format,
                Condition = condition.Code,
                Profile = profile.Number,
                Black = condition.Black,
                PlannedAt = clock.GetUtcNow(),
                Lot = lot.Code,
                Needs = needs,
                Layout = layout.ToJson(),
                PlannedMinutes = layout.Minutes(printer),
            };
            db.Runs.Add(run);
            db.RunPrints.AddRange(lines.Select(l => new RunPrint { Run = run.Number, Order = l.Order, Line = l.Line, Copies = copies[l.Line] }));
            return new Done(run.Number);
        }, cancel);

    // The one its files were made with, when that may be printed with; else the newest, and the card says what is to be prepared again.
    private static async Task<Profile?> ProfileOfAsync(RoomDb db, List<PrintLine> lines, PaperCode paper, CancellationToken cancel) =>
        lines.Select(RecipeText.ProfileOf).Distinct().ToArray() is [{ } one]
        && await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == one && p.Standing != Standing.New && p.Standing != Standing.Retired, cancel) is { } made
            ? made : (await PreparePrint.ProfileForAsync(db, paper, cancel))?.Profile;

    public sealed record Request(CommandId Command, PersonName By, int Order, LotCode Lot);

    public sealed record Done(int Run);

    public sealed record NothingIsReady(int Order) : Refusal($"No print of order {Order} is prepared and still to be printed. Prepare its file first.");

    public sealed record LotIsOfAnotherPaper(LotCode Lot, PaperCode Paper) : Refusal($"Lot {Lot} is {Paper}, not the paper that was ordered.");

    public sealed record NoTrustedProfile(PaperCode Paper) : Refusal($"{Paper} has no trusted profile. No card is issued until one is trusted.");
}

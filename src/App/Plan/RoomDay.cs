using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Settings;
using KnownWork = Goodsheet.Room.Buying.KnownWork;

namespace Goodsheet.App.Plan;

/// <summary>The room's work of today as the planner takes it: what has begun, what is planned, what was ordered and is on no run yet.</summary>
internal sealed class RoomDay
{
    private const int DaysAhead = 14;
    private const double SmallWait = 0.001; // of a printer's minute, for each minute that work is not done
    private const double SquareMicrometresPerSquareMetre = 1e12;

    private readonly Dictionary<PaperCode, Paper> papers;
    private readonly PlanSettings settings;

    private RoomDay(Dictionary<PaperCode, Paper> papers, PlanSettings settings) => (this.papers, this.settings) = (papers, settings);

    public required DateTimeOffset Now { get; init; }

    public required TimeZoneInfo Zone { get; init; }

    public required RoomSettings Room { get; init; }

    public required DayWork Work { get; init; }

    /// <summary>Runs that are printing: they stay where they are.</summary>
    public required IReadOnlyList<BegunRun> Begun { get; init; }

    public required IReadOnlyList<Printer> Printers { get; init; }

    /// <summary>The runs behind the work, place by place; null where an order is on no run yet.</summary>
    public required IReadOnlyList<Run?> Runs { get; init; }

    /// <summary>The order behind work that is on no run yet, by its place in the work.</summary>
    public required IReadOnlyDictionary<int, int> Orders { get; init; }

    /// <summary>The prints whose test strips are work of the day, by the strip's place in the work.</summary>
    public required IReadOnlyDictionary<int, AwaitedStrip> Strips { get; init; }

    /// <summary>The order at hand, by printer, as places in the work.</summary>
    public required IReadOnlyList<IReadOnlyList<int>> Present { get; init; }

    /// <remarks>To the nearest tick: noon, counted in minutes and back, is not a hair before noon.</remarks>
    public DateTimeOffset At(double minute) => Now.AddTicks((long)Math.Round(minute * TimeSpan.TicksPerMinute));

    public string PaperName(string code) => papers[new(code)].Name;

    public static async Task<RoomDay> ReadAsync(RoomDb db, DateTimeOffset now, (string Key, DateTimeOffset At)? promise, CancellationToken cancel)
    {
        var room = await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
        var settings = await db.PlanSettings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
        var zone = TimeZoneInfo.TryFindSystemTimeZoneById(room.TimeZone, out var found) ? found : TimeZoneInfo.Utc;
        var printers = await db.Printers.AsNoTracking().Where(p => !p.Gone).OrderBy(p => p.Name).ToListAsync(cancel);
        var loaded = await db.Loaded.AsNoTracking().ToDictionaryAsync(l => l.Printer, cancel);
        var runs = await db.Runs.AsNoTracking().Where(r => r.State == RunState.Planned || r.State == RunState.Printing).OrderBy(r => r.Number).ToListAsync(cancel);
        var prints = await (
            from print in db.RunPrints.AsNoTracking()
            join run in db.Runs on print.Run equals run.Number
            join line in db.PrintLines on new { print.Order, print.Line } equals new { line.Order, line.Line }
            join order in db.Orders on print.Order equals order.Number
            where run.State == RunState.Planned || run.State == RunState.Printing
            select new { print.Run, print.Copies, Line = line, order.Promised }).ToListAsync(cancel);
        var waiting = await (
            from line in db.PrintLines.AsNoTracking()
            join order in db.Orders on line.Order equals order.Number
            where order.State == OrderState.Approved && !db.RunPrints.Any(r => r.Order == line.Order && r.Line == line.Line)
            orderby order.Promised, line.Order, line.Line
            select new { Line = line, order.Promised }).Take(DayPlanner.MostRuns / 2).ToListAsync(cancel);
        var able = await (
            from profile in db.Profiles.AsNoTracking()
            join condition in db.Conditions on profile.Condition equals condition.Code
            where profile.Standing != Standing.Retired
            select condition).ToListAsync(cancel);
        var papers = await db.Papers.AsNoTracking().ToDictionaryAsync(p => p.Code, cancel);
        var formats = await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel);
        var kept = (await db.Items.AsNoTracking().ToListAsync(cancel)).ToLookup(i => i.Paper, i => formats[i.Format]);
        var lots = await db.Lots.AsNoTracking().ToDictionaryAsync(l => l.Code, l => l.Paper, cancel);

        var helper = new RoomDay(papers, settings) { Now = now, Zone = zone, Room = room, Work = null!, Begun = [], Printers = printers, Runs = [], Orders = new Dictionary<int, int>(), Strips = new Dictionary<int, AwaitedStrip>(), Present = [] };
        var begun = runs.Where(r => r.State is RunState.Printing && printers.Exists(p => p.Code == r.Printer)).Select(r =>
        {
            var on = printers.Single(p => p.Code == r.Printer);
            var minutes = helper.Minutes(on, Fed(r), prints.Where(p => p.Run == r.Number).Select(p => (p.Line, p.Copies)));
            var from = ((r.BeganAt ?? now) - now).TotalMinutes;
            var its = prints.Where(p => p.Run == r.Number).ToList();
            var to = Math.Max(0, from + minutes);
            return new BegunRun(
                r, from, to, to + (60 * papers[r.Paper].DryingHours), its.Sum(p => p.Copies),
                promise is { } asked && asked.Key == $"{r.Number}" ? (asked.At - now).TotalMinutes : its.Count == 0 ? double.PositiveInfinity : its.Min(p => (p.Promised - now).TotalMinutes));
        }).ToList();

        var work = new List<RunToPlan>();
        var behind = new List<Run?>();
        var (orders, strips) = (new Dictionary<int, int>(), new Dictionary<int, AwaitedStrip>());
        var last = await TestStripsOf.LastAsync(db, [.. prints.Select(p => p.Line).Concat(waiting.Select(w => w.Line)).Where(l => l.StripFirst)], cancel);
        foreach (var run in runs.Where(r => r.State is RunState.Planned && printers.Exists(p => p.Code == r.Printer)))
        {
            var its = prints.Where(p => p.Run == run.Number).ToList();
            var due = its.Count == 0 ? DateTimeOffset.MaxValue : its.Min(p => p.Promised);
            Add(helper.ToPlan(
                $"{run.Number}", papers[run.Paper], Fed(run), run.Black, its.Select(p => (p.Line, p.Copies)).ToList(), due, promise, p => p.Code == run.Printer), run, its.Select(p => p.Line));
        }

        foreach (var line in waiting.Where(w => able.Exists(c => c.Paper == w.Line.Paper && printers.Exists(p => p.Code == c.Printer))))
        {
            var conditions = able.Where(c => c.Paper == line.Line.Paper).ToList();
            Add(helper.ToPlan(
                $"order {line.Line.Order}{(line.Line.Line > 1 ? $", print {line.Line.Line}" : "")}", papers[line.Line.Paper], FedByUse(line.Line), conditions[0].Black,
                [(line.Line, line.Line.ToPrint)], line.Promised, promise, p => conditions.Exists(c => c.Printer == p.Code)), null, [line.Line]);
        }

        var days = printers.Select(p => new PrinterDay(
            p.Name, begun.Where(b => b.Run.Printer == p.Code).Select(b => b.To).DefaultIfEmpty(0).Max(),
            begun.Where(b => b.Run.Printer == p.Code).Select(b => (BlackInk?)b.Run.Black).LastOrDefault() ?? (loaded.TryGetValue(p.Code, out var on) ? on.Black : BlackInk.Photo),
            begun.Where(b => b.Run.Printer == p.Code).Select(b => b.Run.Paper.Value).LastOrDefault()
                ?? (loaded.TryGetValue(p.Code, out var with) && with.Lot is { } lot && lots.TryGetValue(lot, out var paper) ? paper.Value : null),
            p.MinutesToPhoto, p.MlToPhoto, p.MinutesToMatte, p.MlToMatte, settings.MinutesPerPaperChange)).ToList();
        var drying = begun.Select(b => (b.Dry, b.Prints)).ToList();
        return new(papers, settings)
        {
            Now = now,
            Zone = zone,
            Room = room,
            Work = new(days, work, new(OpenHours.Of(now, zone, room.Opens, room.Closes, settings.WorksOn, DaysAhead).All, settings.People, settings.DryPlaces, drying, new(settings.MinutesPerMl, 1, SmallWait, settings.MinutesWorthMoving))),
            Begun = begun,
            Printers = printers,
            Runs = behind,
            Orders = orders,
            Strips = strips,
            Present = [.. printers.Select(p => behind.Select((r, i) => (r, i)).Where(x => x.r?.Printer == p.Code).OrderBy(x => x.r!.PlannedAt).ThenBy(x => x.r!.Number).Select(x => x.i).ToArray())],
        };

        (Feed Feed, long Sheets) Fed(Run run) => (papers[run.Paper].FeedFrom(formats[run.Format].IsRoll), run.Needs);

        // What is on no run yet is taken to go on the smallest format kept that takes it.
        (Feed Feed, long Sheets) FedByUse(PrintLine line) => KnownWork.FormatFor(line.FullWidth, line.FullHeight, kept[line.Paper]) is { } format
            ? (papers[line.Paper].FeedFrom(format.IsRoll), KnownWork.Wants(line.FullWidth, line.FullHeight, Math.Max(1, line.ToPrint), format))
            : (papers[line.Paper].Feed, line.ToPrint);

        // A print that wants its test strip looked at first: the strips come before it, as work of their own.
        void Add(RunToPlan run, Run? of, IEnumerable<PrintLine> lines)
        {
            var (after, ready) = (new List<int>(), run.Ready);
            foreach (var line in lines)
            {
                var strip = last.GetValueOrDefault((line.Order, line.Line));
                var awaited = AwaitedStrip.Of(line, strip);
                if (awaited.Wait is StripWait.ToMake or StripWait.ToPrint)
                {
                    after.Add(work.Count);
                    strips[work.Count] = awaited;
                    work.Add(helper.Strip(run, line, awaited.Wait is StripWait.ToPrint ? strip : null));
                    behind.Add(null);
                }
                else if (awaited.Wait is StripWait.ToJudge)
                {
                    ready = Math.Max(ready, (strip!.PrintedAt!.Value.AddMinutes(settings.MinutesPerStrip) - now).TotalMinutes);
                }
            }

            if (of is null)
            {
                orders[work.Count] = lines.First().Order;
            }

            work.Add(run with { Ready = ready, After = after, AfterMinutes = settings.MinutesPerStrip });
            behind.Add(of);
        }
    }

    /// <summary>The test strip of a print, on a printer that can print it: paper, feed and black are the print's, and it dries while it is waited for.</summary>
    private RunToPlan Strip(RunToPlan whole, PrintLine line, TestStrip? made)
    {
        var (width, height) = (made?.Width ?? TestStrip.UsualWidth, made?.Height ?? TestStrip.UsualHeight);
        var area = (double)width.Micrometres * height.Micrometres / SquareMicrometresPerSquareMetre;
        return whole with
        {
            Key = $"strip of order {line.Order}{(line.Line > 1 ? $", print {line.Line}" : "")}",
            MinutesOn = [.. Printers.Select((p, i) => whole.MinutesOn[i] is null ? (double?)null : PrintTime.OfArea(p, area) + settings.MinutesPerLoad)],
            Due = double.PositiveInfinity,
            DryMinutes = 0,
            DryPlaces = 0,
        };
    }

    private RunToPlan ToPlan(
        string key, Paper paper, (Feed Feed, long Sheets) fed, BlackInk black, IReadOnlyList<(PrintLine Line, int Copies)> prints, DateTimeOffset due,
        (string Key, DateTimeOffset At)? promise, Func<Printer, bool> takes) => new(
            key, paper.Code.Value, black, fed.Feed,
            [.. Printers.Select(p => takes(p) ? (double?)Minutes(p, fed, prints) : null)],
            0, promise is { } asked && asked.Key == key ? (asked.At - Now).TotalMinutes : due == DateTimeOffset.MaxValue ? double.PositiveInfinity : (due - Now).TotalMinutes,
            settings.MinutesPerHourLate / 60, 60 * paper.DryingHours, prints.Sum(p => p.Copies));

    /// <summary>Printing by area, and the hands that feed it.</summary>
    private double Minutes(Printer printer, (Feed Feed, long Sheets) fed, IEnumerable<(PrintLine Line, int Copies)> prints)
    {
        var all = prints.ToList();
        var area = all.Sum(p => p.Copies * (double)p.Line.FullWidth.Micrometres * p.Line.FullHeight.Micrometres) / SquareMicrometresPerSquareMetre;
        return PrintTime.Of(printer, fed.Feed, area, fed.Sheets, settings);
    }
}

/// <summary>A run that is printing, in minutes after now.</summary>
/// <param name="To">Its end as it was reckoned, and never before now.</param>
/// <param name="Due">The soonest promise; infinity when nothing was promised.</param>
internal sealed record BegunRun(Run Run, double From, double To, double Dry, int Prints, double Due);

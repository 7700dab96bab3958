using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Buying;

/// <summary>Runs the room forward through possible years, as it buys now and as it might: stock, waits, outdated paper and money.</summary>
/// <remarks>Both meet the same work in each year, so their difference is surer than either figure.</remarks>
public sealed class RunAhead(RoomStore room, TimeProvider clock)
{
    public const int UsualRuns = 60;
    public const int MostRuns = 2_000;
    public const int MostOutageDays = 180;
    private const int Year = 365;
    private const int OutageBegins = 30;
    private const double LeastFill = 0.5;
    private const double MostFill = 0.999;
    private const double MostPerCent = 500;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var advice = await db.AdviceAsync(clock, cancel);
        SupplierCode[] codes = [.. advice.Lines.Select(l => l.Sending.Supplier.Code).Distinct().OrderBy(c => c.Value, StringComparer.Ordinal)];
        if (Wrong(request, codes) is { } refusal)
        {
            return refusal;
        }

        var keeps = await KeepsAsync(db, cancel);
        var ahead = new RoomAhead(
            advice.Today,
            [.. advice.Lines.Select(l => new ItemAhead(
                l.Need.Of, l.Need.Goes.Method, l.Need.Days, Array.IndexOf(codes, l.Sending.Supplier.Code),
                (double?)PriceList.PriceOf(l.Need.Prices, 1), keeps.TryGetValue(l.Need.Item.Code, out var days) ? days : null))],
            [.. codes.Select(c => advice.Sendings[c]).Select(s => new SupplierAhead(
                s.Clock, s.Usual.CutOff, s.Usual.LeadDays, s.Late, (double)s.Supplier.Carriage, (double?)s.Supplier.CarriageFreeFrom))]);
        var (present, proposed) = (
            new RoomRun(ahead, new(Advice.FillRate), 0, Year),
            new RoomRun(ahead, RuleOf(request, codes), 0, Year));
        var past = new PastWeeks(ahead.Items.Select(i => i.Past));
        var (now, then) = (new RunTally[request.Runs], new RunTally[request.Runs]);
        await Task.Run(
            () => Parallel.For(0, request.Runs, new() { CancellationToken = cancel }, run =>
            {
                var seed = unchecked(request.Seed + run);
                now[run] = present.Run(past.Ahead(seed), seed);
                then[run] = proposed.Run(past.Ahead(seed), seed);
            }),
            cancel);
        return new Done(
            Figures.Of(now), Figures.Of(then), Figures.Of(now, then),
            [.. Enumerable.Range(0, Year / 7).Select(w => new WeekAhead(RunFigure.Of(now.Select(t => t.StockByWeek[w])), RunFigure.Of(then.Select(t => t.StockByWeek[w]))))],
            [.. advice.Lines.Select((l, i) => new ItemLine(
                l.Need.Item.Code, l.Need.Paper,
                now.Average(t => t.Items[i].Held), then.Average(t => t.Items[i].Held),
                now.Average(t => t.Items[i].FillRate), then.Average(t => t.Items[i].FillRate),
                now.Average(t => t.Items[i].Outdated), then.Average(t => t.Items[i].Outdated))).OrderBy(l => l.Paper, StringComparer.CurrentCulture).ThenBy(l => l.Item.Format.Value, StringComparer.Ordinal)],
            [.. ahead.Items.Where(i => i.PackPrice is null).Select(i => i.Need.Item)],
            [.. codes.Select(c => advice.Sendings[c].Supplier)], request);
    }

    private static Refusal? Wrong(Request request, SupplierCode[] codes) => request switch
    {
        _ when codes.Length == 0 => new NothingToRun(),
        _ when !request.OrderDays.HasADay => new NotAWhatIf("Orders go on one day of the week at least."),
        _ when !(request.FillRate >= LeastFill && request.FillRate <= MostFill) => new NotAWhatIf($"What the shelf is to give at once is between {100 * LeastFill} and {100 * MostFill} %."),
        _ when request.Runs is < 1 or > MostRuns => new NotAWhatIf($"Years are between 1 and {MostRuns}."),
        _ when request.OutageDays is < 0 or > MostOutageDays => new NotAWhatIf($"A supplier stands still for at most {MostOutageDays} days."),
        _ when !(request.PriceRise >= -100 && request.PriceRise <= MostPerCent) => new NotAWhatIf($"Prices change by -100 to {MostPerCent} %."),
        _ when request.OutageAt is { } code && !codes.Contains(code) => new NoSuchSupplier(code),
        _ when request.PriceAt is { } code && !codes.Contains(code) => new NoSuchSupplier(code),
        _ => null,
    };

    private static AheadRule RuleOf(Request request, SupplierCode[] codes) => new(request.FillRate)
    {
        OrderDays = request.OrderDays,
        Outage = request is { OutageAt: { } still, OutageDays: > 0 } ? new(Array.IndexOf(codes, still), OutageBegins, request.OutageDays) : null,
        Prices = request.PriceAt is { } dearer ? new Dictionary<int, double> { [Array.IndexOf(codes, dearer)] = 1 + (request.PriceRise / 100) } : new Dictionary<int, double>(),
    };

    /// <summary>How long new lots of an item can be used, by the middle of those that came with a date.</summary>
    private static async Task<Dictionary<ItemCode, int>> KeepsAsync(RoomDb db, CancellationToken cancel) =>
        (await db.Lots.AsNoTracking().Where(l => l.BestBefore != null).Select(l => new { l.Paper, l.Format, l.Received, l.BestBefore }).ToListAsync(cancel))
            .GroupBy(l => new ItemCode(l.Paper, l.Format), l => Math.Max(1, l.BestBefore!.Value.DayNumber - l.Received.DayNumber))
            .ToDictionary(g => g.Key, g => g.Order().ElementAt(g.Count() / 2));

    /// <param name="OutageAt">A supplier that packs and brings nothing for so many days from the thirty-first on.</param>
    /// <param name="PriceRise">In per cent, of all that is bought at a supplier.</param>
    /// <param name="Runs">Years tried.</param>
    public sealed record Request(
        WorkingWeek OrderDays, double FillRate = Advice.FillRate, SupplierCode? OutageAt = null, int OutageDays = 0, SupplierCode? PriceAt = null, double PriceRise = 0,
        int Runs = UsualRuns, int Seed = 1);

    /// <param name="Difference">What the other way brings more, year by year.</param>
    public sealed record Done(
        Figures Present, Figures Proposed, Figures Difference, IReadOnlyList<WeekAhead> Weeks, IReadOnlyList<ItemLine> Items, IReadOnlyList<ItemCode> WithoutPrice,
        IReadOnlyList<Supplier> Suppliers, Request Asked);

    /// <param name="HeldNow">Boxes or rolls on the shelf, usually.</param>
    /// <param name="OutdatedNow">Boxes or rolls in a year.</param>
    public sealed record ItemLine(
        ItemCode Item, string Paper, double HeldNow, double HeldThen, double FillNow, double FillThen, double OutdatedNow, double OutdatedThen);

    public sealed record NothingToRun() : Refusal("No item is bought from a supplier with a way of sending, so there is nothing to run. Set prices under Buying first.");

    public sealed record NotAWhatIf(string Why) : Refusal(Why);
}

/// <summary>What lies on the shelf at the end of a week, in money.</summary>
public sealed record WeekAhead(RunFigure Now, RunFigure Then);

/// <summary>What a year brings: the average of the years tried, and between what nine of ten lay.</summary>
public sealed record Figures(
    RunFigure StockValue, RunFigure FillRate, RunFigure Waits, RunFigure Outdated, RunFigure Orders, RunFigure Carriage, RunFigure Paper)
{
    private static readonly Func<RunTally, double>[] Read =
        [t => t.StockValue, t => t.FillRate, t => t.WaitsAYear, t => t.OutdatedAYear, t => t.OrdersAYear, t => t.CarriageAYear, t => t.PaperAYear];

    internal static Figures Of(IReadOnlyList<RunTally> runs) => Of([.. Read.Select(r => RunFigure.Of(runs.Select(r)))]);

    internal static Figures Of(IReadOnlyList<RunTally> from, IReadOnlyList<RunTally> to) =>
        Of([.. Read.Select(r => RunFigure.Of(from.Zip(to, (a, b) => r(b) - r(a))))]);

    private static Figures Of(RunFigure[] f) => new(f[0], f[1], f[2], f[3], f[4], f[5], f[6]);
}

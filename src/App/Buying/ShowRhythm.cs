using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Buying;

/// <summary>How often it pays to order from a supplier, and which items each how manieth time.</summary>
public sealed class ShowRhythm(RoomStore room, TimeProvider clock)
{
    private const double Year = 365;
    private const double MostMinutes = 600;
    private const double MostPerCent = 200;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (!(request.KeepingPerCent is > 0 and <= MostPerCent) || !(request.OrderMinutes is > 0 and <= MostMinutes) || !(request.LineMinutes is > 0 and <= MostMinutes))
        {
            return new DoesNotServe();
        }

        await using var db = room.Open();
        var advice = await db.AdviceAsync(clock, cancel);
        if (!advice.Sendings.TryGetValue(request.Supplier, out var sending))
        {
            return new NoSuchSupplier(request.Supplier);
        }

        var today = clock.Today();
        var minute = (double)((await db.Rates.AsNoTracking().Where(r => r.From <= today).OrderByDescending(r => r.From).ThenByDescending(r => r.Number).FirstOrDefaultAsync(cancel))?.PersonPerMinute ?? 0);
        if (minute <= 0)
        {
            return new NoRate();
        }

        Line[] lines = [.. advice.Lines.Where(l => l.Sending.Supplier.Code == request.Supplier && l.Need.Goes.PerDay > 0)
            .Select(l => (l.Need, Price: PriceList.PriceOf(l.Need.Prices, 1))).Where(l => l.Price > 0)
            .Select(l => new Line(l.Need.Item.Code, l.Need.Paper, l.Need.Goes.PerDay * Year / l.Need.Of.Pack * (double)l.Price!.Value, (double)l.Price.Value))];
        if (lines.Length == 0)
        {
            return new NothingGoes(sending.Supplier.Name);
        }

        var terms = new OrderRhythm.Terms((double)sending.Supplier.Carriage, (double?)sending.Supplier.CarriageFreeFrom, (double)sending.Supplier.MinimumOrder);
        return new Done(sending.Supplier, lines, OrderRhythm.Find(
            request.OrderMinutes * minute, request.LineMinutes * minute, request.KeepingPerCent / 100, terms, [.. lines.Select(l => l.BoughtAYear)]), request);
    }

    /// <param name="KeepingPerCent">What a year of keeping paper costs, of its worth: money tied up, the shelf, what spoils.</param>
    /// <param name="OrderMinutes">Writing one order and taking it in.</param>
    /// <param name="LineMinutes">Each line of it: counting, putting away.</param>
    public sealed record Request(SupplierCode Supplier, double KeepingPerCent = 10, double OrderMinutes = 20, double LineMinutes = 5);

    public sealed record Done(Supplier Supplier, IReadOnlyList<Line> Lines, OrderRhythm Rhythm, Request Asked)
    {
        /// <summary>Packs of a line on the orders it is on.</summary>
        public double PacksOf(int line) => Lines[line].BoughtAYear / Lines[line].PackPrice * Rhythm.EveryDays * Rhythm.Multiples[line] / Year;
    }

    /// <param name="BoughtAYear">In money.</param>
    public sealed record Line(ItemCode Item, string Paper, double BoughtAYear, double PackPrice);

    public sealed record DoesNotServe() : Refusal($"Minutes are above 0 and at most {MostMinutes}, keeping costs above 0 and at most {MostPerCent} % a year.");

    public sealed record NoRate() : Refusal("What a person's minute costs is not written down. Set the rates under Money first.");

    public sealed record NothingGoes(string Supplier) : Refusal($"Nothing that has a price at {Supplier} goes off the shelf, so there is no rhythm to find.");
}

using Goodsheet.Room.Buying;

namespace Goodsheet.Bench.Buying;

/// <summary>A room of a seed: its papers, suppliers and prices are invented, and so is how its work comes.</summary>
internal sealed class InventedRoom
{
    private static readonly DateOnly Monday = new(2026, 3, 2);

    private readonly (double[] Jobs, double Size)[] work;

    public InventedRoom(int seed, int? items = null)
    {
        var random = new Random(seed);
        var suppliers = Enumerable.Range(0, random.Next(2, 4)).Select(_ => Supplier(random)).ToArray();
        var weekends = random.Next(10) < 3 ? 1 : 0.0;
        work = [.. Enumerable.Range(0, items ?? random.Next(12, 41)).Select(_ =>
        {
            var jobs = Math.Exp((random.NextDouble() * Math.Log(40)) + Math.Log(0.05)); // 0.05 to 2 jobs a day
            return (Enumerable.Range(0, 7).Select(d => jobs * (d is 0 or 6 ? weekends : 0.7 + (0.6 * random.NextDouble()))).ToArray(), 1 + (7 * random.NextDouble()));
        })];
        var past = Ahead(unchecked(seed * 7919));
        var pasts = work.Select(_ => new double[RoomRun.RateDays]).ToArray();
        var wanted = new long[work.Length];
        for (var day = 0; day < RoomRun.RateDays; day++)
        {
            past(day, wanted); // 182 days are whole weeks: the last is a Sunday
            for (var item = 0; item < work.Length; item++)
            {
                pasts[item][day] = wanted[item];
            }
        }

        Room = new(Monday, [.. pasts.Select((p, i) => Item(i, p, random, suppliers.Length))], suppliers);
    }

    public RoomAhead Room { get; }

    /// <summary>Jobs of a day are Poisson, the size of each geometric.</summary>
    public DemandOfDay Ahead(int seed)
    {
        var random = new Random(seed);
        return (day, wanted) =>
        {
            for (var item = 0; item < work.Length; item++)
            {
                wanted[item] = 0;
                for (var jobs = Poisson(work[item].Jobs[(day + 1) % 7], random); jobs > 0; jobs--)
                {
                    wanted[item] += 1 + (long)Math.Floor(Math.Log(1 - random.NextDouble()) / Math.Log(1 - (1 / work[item].Size)));
                }
            }
        };
    }

    private static int Poisson(double mean, Random random)
    {
        var (count, product, limit) = (0, random.NextDouble(), Math.Exp(-mean));
        for (; product > limit; count++)
        {
            product *= random.NextDouble();
        }

        return count;
    }

    private static SupplierAhead Supplier(Random random)
    {
        var works = new Calendar(WorkingWeek.MondayToFriday, []);
        var delivers = random.Next(3) == 0 ? new Calendar(WorkingWeek.Of([DayOfWeek.Tuesday, DayOfWeek.Friday]), []) : works;
        var late = random.Next(2) == 0 ? Lateness.Never : new Lateness(0.2 * random.NextDouble(), [1, 1, 2, 3]);
        return new(new(TimeZoneInfo.Utc, works, delivers), new(14, 30), random.Next(1, 6), late, 8, 250);
    }

    private static ItemAhead Item(int number, double[] past, Random random, int suppliers)
    {
        long[] packs = [10, 25, 25, 25, 50];
        var pack = packs[random.Next(packs.Length)];
        return new(
            new()
            {
                Item = new(new($"paper-{number}"), new("A2")),
                IsRoll = false,
                Pack = pack,
                Lots = [(2 * pack, null)],
                OnTheWay = 0,
                Promised = 0,
                Reserve = 0,
                PerDay = 0,
                VariancePerDay = 0,
            },
            BackTest.Best(BackTest.Of(ItemDemand.Weeks(past))), past, random.Next(suppliers), 20 + (180 * random.NextDouble()), random.Next(3) == 0 ? null : random.Next(360, 720));
    }
}

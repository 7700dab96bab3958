using Goodsheet.Room.Buying;

namespace Goodsheet.Room.Tests.Buying;

public class RoomRunTest
{
    /// <summary>What a few simulated years scatter about the figure that is asked for.</summary>
    private const double ByLot = 0.01;

    private const double Rounding = 1e-9;

    private static readonly DateOnly Monday = new(2026, 3, 2);

    [Fact]
    public void The_same_seed_gives_the_same_years_and_another_does_not()
    {
        var run = new RoomRun(Room(), new(0.98), 0, 365);
        var (one, again, other) = (Run(run, 3), Run(run, 3), Run(run, 4));
        Assert.Equal((one.StockValue, one.FillRate, one.Orders), (again.StockValue, again.FillRate, again.Orders));
        Assert.NotEqual(one.StockValue, other.StockValue);
    }

    [Fact]
    public void What_the_rule_says_it_gives_at_once_is_what_the_years_give()
    {
        var tally = Run(new(Room(), new(0.95), 365, 8 * 365), 1);
        Assert.Equal(tally.PromisedFill, tally.FillRate, ByLot);
        Assert.InRange(tally.FillRate, 0.95 - ByLot, 1);
    }

    [Fact]
    public void What_was_wanted_is_drawn_from_the_past_on_the_same_weekday()
    {
        double[] past = [.. Enumerable.Range(0, 70).Select(d => (double)((d % 7) + 1))];
        past[20] -= 8; // more came back than went: it is taken off the day before
        var demand = new PastWeeks([past]).Ahead(9);
        var wanted = new long[1];
        var sum = 0L;
        for (var day = 0; day < 7_000; day++)
        {
            demand(day, wanted);
            Assert.True(wanted[0] == (day % 7) + 1 || wanted[0] == 0 || (day % 7 == 5 && wanted[0] == 5));
            sum += wanted[0];
        }

        Assert.InRange(sum / 1000.0, 26, 28); // a week of 28, one in ten of 20
    }

    [Fact]
    public void Ordering_on_one_day_of_the_week_takes_more_stock_and_fewer_orders()
    {
        var daily = Run(new(Room(), new(0.98), 365, 4 * 365), 1);
        var weekly = Run(new(Room(), new(0.98) { OrderDays = WorkingWeek.Of([DayOfWeek.Monday]) }, 365, 4 * 365), 1);
        Assert.True(weekly.StockValue > daily.StockValue);
        Assert.True(weekly.OrdersAYear <= 53 && weekly.OrdersAYear < daily.OrdersAYear);
    }

    [Fact]
    public void A_supplier_that_stands_still_makes_work_wait_and_dearer_paper_costs_more()
    {
        var usual = Run(new(Room(), new(0.98), 0, 365), 1);
        var still = Run(new(Room(), new(0.98) { Outage = new(0, 30, 40) }, 0, 365), 1);
        Assert.True(still.FillRate < usual.FillRate && still.WaitsAYear > usual.WaitsAYear);
        var dear = Run(new(Room(), new(0.98) { Prices = new Dictionary<int, double> { [0] = 1.5 } }, 0, 365), 1);
        Assert.Equal(1.5 * usual.PaperAYear, dear.PaperAYear, Rounding * dear.PaperAYear);
    }

    [Fact]
    public void Paper_that_does_not_keep_goes_out_of_date_where_more_boxes_are_kept_than_are_wanted()
    {
        var room = Room(keeps: 60);
        Assert.True(Run(new(room, new(0.98) { BoxesOfEach = 12 }, 0, 730), 1).OutdatedAYear > Run(new(room, new(0.98), 0, 730), 1).OutdatedAYear);
    }

    [Fact]
    public void Figures_of_many_runs_lie_between_what_nine_of_ten_gave()
    {
        var figure = RunFigure.Of(Enumerable.Range(0, 101).Select(i => (double)i));
        Assert.Equal((50, 5, 95), (figure.Mean, figure.Low, figure.High));
    }

    private static RunTally Run(RoomRun run, int seed) => run.Run(new PastWeeks(Room().Items.Select(i => i.Past)).Ahead(seed), seed);

    private static RoomAhead Room(int? keeps = 600)
    {
        var calendar = new Calendar(WorkingWeek.MondayToFriday, []);
        var random = new Random(1);
        return new(Monday, [.. Enumerable.Range(0, 4).Select(i => Item(i, random, keeps))],
            [new(new(TimeZoneInfo.Utc, calendar, calendar), new(14, 30), 2, Lateness.Never, 8, 200)]);
    }

    private static ItemAhead Item(int number, Random random, int? keeps) => new(
        new()
        {
            Item = new(new($"paper-{number}"), new("A2")),
            IsRoll = false,
            Pack = 25,
            Lots = [(50, null)],
            OnTheWay = 0,
            Promised = 0,
            Reserve = 0,
            PerDay = 0,
            VariancePerDay = 0,
        },
        DemandMethod.HalfYear, [.. Enumerable.Range(0, 182).Select(_ => random.Next(3) == 0 ? (double)random.Next(1, 6 + (4 * number)) : 0)], 0, 40, keeps);
}

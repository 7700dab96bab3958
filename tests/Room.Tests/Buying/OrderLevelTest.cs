using CsCheck;
using Goodsheet.Room.Buying;

namespace Goodsheet.Room.Tests.Buying;

public class OrderLevelTest
{
    /// <summary>What a truncation at 1e-13 and sums of a few hundred terms may leave.</summary>
    private const double Rounding = 1e-9;

    private static readonly DateOnly Monday = new(2026, 3, 2);

    [Fact]
    public void Chances_sum_to_one_and_have_the_mean_and_variance_asked_for() =>
        Gen.Select(Gen.Double[0.01, 200], Gen.Double[1, 8]).Sample((mean, times) =>
        {
            var chances = CountDistribution.Of(mean, mean * times).Chances;
            var found = chances.Select((p, k) => p * k).Sum();
            Assert.Equal(1, chances.Sum(), Rounding);
            Assert.Equal(mean, found, mean * 1e-6);
            Assert.Equal(mean * times, chances.Select((p, k) => p * (k - found) * (k - found)).Sum(), mean * times * 1e-6);
        });

    [Fact]
    public void The_level_gives_the_fill_rate_asked_and_the_level_below_does_not() =>
        Gen.Select(Gen.Double[0.1, 12], Gen.Double[1, 5], Gen.Int[1, 5], Gen.Int[1, 5], Gen.Int[1, 60], Gen.Double[0.8, 0.995]).Sample(
            (perDay, times, first, more, pack, asked) =>
            {
                var (one, two) = (Of(perDay * first, times), Of(perDay * (first + more), times));
                var level = OrderLevel.Find(one, two, pack, asked);
                Assert.True(level.FillRate >= asked);
                if (level.Point >= 0)
                {
                    Assert.True(Fill(level.Point - 1, one, two, pack) < asked);
                    Assert.Equal(level.FillRate, Fill(level.Point, one, two, pack), Rounding);
                }
            });

    [Fact]
    public void What_nobody_wants_is_not_kept_but_its_reserve_is()
    {
        Assert.Equal(0, Advise(left: 0, perDay: 0, reserve: 0).Packs);
        Assert.Equal(1, Advise(left: 4, perDay: 0, reserve: 5).Packs);
        Assert.Equal(0, Advise(left: 5, perDay: 0, reserve: 5).Packs);
    }

    [Fact]
    public void The_more_is_left_the_fewer_packs_are_ordered_and_what_is_on_the_way_counts()
    {
        var packs = Enumerable.Range(0, 60).Select(left => Advise(left, perDay: 3, reserve: 5).Packs).ToList();
        Assert.True(packs.Zip(packs.Skip(1)).All(p => p.First >= p.Second));
        Assert.Equal(0, packs[^1]);
        Assert.Equal(Advise(30, 3, 5).Packs, Advise(5, 3, 5, onTheWay: 25).Packs);
    }

    [Fact]
    public void Paper_that_goes_out_of_date_before_it_can_be_used_does_not_count()
    {
        (long, DateOnly?)[] lots = [(10, Monday.AddDays(1)), (10, Monday.AddDays(40))];
        Assert.Equal(6, Reorder.ExpectedOutdates(lots, 2, Monday, Monday.AddDays(10))); // 2 a day for 2 days use 4 of the first 10
        Assert.Equal(0, Reorder.ExpectedOutdates(lots, 5, Monday, Monday.AddDays(10)));
    }

    [Fact]
    public void A_long_roll_is_advised_like_sheets()
    {
        var advice = Reorder.Of(Need(left: 2_000, perDay: 1_500, pack: 15_000, reserve: 3_000, isRoll: true) with { VariancePerDay = 4_000_000 }, Promise(), Monday, 0.98);
        Assert.Equal(1, advice.Packs);
        Assert.InRange(advice.Level.Point, 3_000 + (3 * 1_500) - 1, 20_000);
    }

    private static Reorder Advise(long left, double perDay, long reserve, long onTheWay = 0) =>
        Reorder.Of(Need(left, perDay, 25, reserve) with { OnTheWay = onTheWay }, Promise(), Monday, 0.98);

    private static ItemNeed Need(long left, double perDay, long pack, long reserve, bool isRoll = false) => new()
    {
        Item = new(new("marl"), new("A2")),
        IsRoll = isRoll,
        Pack = pack,
        Lots = left == 0 ? [] : [(left, null)],
        OnTheWay = 0,
        Promised = 0,
        Reserve = reserve,
        PerDay = perDay,
        VariancePerDay = perDay * 3,
    };

    private static Promise Promise() => new(Monday, Monday.AddDays(2), new(2026, 3, 2, 14, 30, 0, TimeSpan.Zero), Monday, Monday.AddDays(3));

    private static CountDistribution Of(double mean, double times) => CountDistribution.Of(mean, mean * times);

    private static double Fill(long point, CountDistribution one, CountDistribution two, int pack) =>
        1 - (Enumerable.Range(1, pack).Average(q => two.Shortage(point + q) - one.Shortage(point + q)) / (two.Mean - one.Mean));
}

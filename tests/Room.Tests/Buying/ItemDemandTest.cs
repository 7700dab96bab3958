using CsCheck;
using Goodsheet.Room.Buying;

namespace Goodsheet.Room.Tests.Buying;

public class ItemDemandTest
{
    private const double Rounding = 1e-9;

    /// <summary>Of a mean of some hundred drawn days.</summary>
    private const double ByLot = 0.25;

    private static readonly DateOnly Sunday = new(2026, 3, 1);

    /// <summary>By hand: weeks 0 and 2 in turn. "As last week" is out by 2 each time, the average of the weeks before by 1.</summary>
    [Fact]
    public void Errors_are_set_against_saying_as_last_week()
    {
        double[] weeks = [.. Enumerable.Range(0, 24).Select(w => w % 2 == 0 ? 0.0 : 2.0)];
        var eight = BackTest.Of(weeks).Single(t => t.Method == DemandMethod.EightWeeks);
        Assert.Equal(0.5, eight.Mase, Rounding);
        Assert.Equal(0.5, eight.Rmsse, Rounding);
    }

    [Fact]
    public void Too_few_weeks_or_weeks_all_alike_decide_nothing()
    {
        Assert.Empty(BackTest.Of([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]));
        Assert.Empty(BackTest.Of([.. Enumerable.Repeat(4.0, 26)]));
        Assert.Equal(DemandMethod.HalfYear, BackTest.Best([]));
    }

    [Fact]
    public void What_grew_is_followed_and_what_only_scatters_is_averaged()
    {
        Assert.Equal(DemandMethod.HalfYear, BackTest.Best(BackTest.Of([.. Enumerable.Range(0, 26).Select(w => w % 2 == 0 ? 9.0 : 11.0)])));
        var grown = BackTest.Best(BackTest.Of([.. Enumerable.Range(0, 26).Select(w => w < 10 ? 10.0 + (w % 2) : 60 + (w % 2))]));
        Assert.True(grown is DemandMethod.EightWeeks or DemandMethod.Smoothed or DemandMethod.Trend, $"{grown}");
    }

    [Fact]
    public void A_rate_is_the_average_and_is_surer_the_longer_it_was_watched() =>
        Gen.Int[0, 9].Array[60, 182].Sample(whole =>
        {
            double[] days = [.. whole.Select(d => (double)d)];
            var all = ItemDemand.Of(days, Sunday, DemandMethod.HalfYear);
            Assert.Equal(days.Average(), all.PerDay, Rounding);
            Assert.InRange(all.PerDay, all.Between.Low, all.Between.High);
            Assert.Equal(all.VariancePerDay / days.Length, all.RateVariance, Rounding);
            Assert.Equal(7, Enumerable.Range(0, 7).Sum(d => all.Week.Of((DayOfWeek)d)), Rounding);
        });

    [Fact]
    public void Days_that_roll_on_are_summed_as_if_the_last_were_gone_through_anew() =>
        Gen.Select(Gen.Int[-3, 9].Array[0, 700], Gen.Int[1, 200]).Sample((whole, most) =>
        {
            var rolled = new RecentDays(Sunday.AddDays(1 - whole.Length).DayOfWeek, most);
            foreach (var day in whole)
            {
                rolled.Add(day);
            }

            double[] last = [.. whole.TakeLast(most).Select(d => (double)d)];
            double[] weekdays = [.. Enumerable.Range(0, 7).Select(d => last.Where((_, i) => (int)Sunday.AddDays(i + 1 - last.Length).DayOfWeek == d).DefaultIfEmpty(0).Average())];
            var averages = new double[7];
            rolled.Weekdays(averages);
            Assert.Equal((last.Length, last.Sum()), (rolled.Count, rolled.Sum));
            Assert.All(averages.Zip(weekdays), w => Assert.Equal(w.Second, w.First, Rounding));
            Assert.Equal(last.Select((d, i) => Math.Pow(d - weekdays[(int)Sunday.AddDays(i + 1 - last.Length).DayOfWeek], 2)).Sum(), rolled.SquaresAbout(weekdays), 1e3 * Rounding);
            Assert.Equal(last.Skip(last.Length % 7).Chunk(7).Select(w => Math.Max(0, w.Sum())), rolled.Weeks());
        });

    /// <summary>By hand: rates 1, 2, 3 have mean 2 and variance 1; with a day's variance of 4 and 28 days, its own counts 1 / (1 + 4 / 28) = 7/8.</summary>
    [Fact]
    public void A_new_item_is_likened_to_others_by_as_much_as_its_own_days_cannot_say()
    {
        ItemDemand Of(double rate) => new(rate, 4, 4.0 / 182, WeekShape.Flat, DemandMethod.HalfYear);
        var likened = Of(10).Likened(28, [Of(1), Of(2), Of(3)]);
        Assert.Equal((10 * 7 / 8.0) + (2 / 8.0), likened.PerDay, Rounding);
        Assert.Equal(7 / 8.0 * 4 / 28, likened.RateVariance, Rounding);
        Assert.Equal(3, likened.LikenedTo);
        Assert.Equal(Of(10), Of(10).Likened(28, [Of(1), Of(2)])); // too few to say anything
    }

    [Fact]
    public void What_grows_week_by_week_is_told_by_its_trend() =>
        Assert.Equal(DemandMethod.Trend, BackTest.Best(BackTest.Of([.. Enumerable.Range(0, 26).Select(w => 5.0 + (3 * w) + (w % 2))])));

    [Fact]
    public void A_week_without_weekends_is_seen_and_chance_alone_is_hardly_believed()
    {
        var random = new Random(5);
        double[] worked = [.. Enumerable.Range(0, 182).Select(d => Sunday.AddDays(d - 181).DayOfWeek is DayOfWeek.Saturday or DayOfWeek.Sunday ? 0.0 : 4 + random.Next(3))];
        var week = WeekShape.From(RecentDays.Of(worked, Sunday));
        Assert.InRange(week.Of(DayOfWeek.Sunday), 0, 0.1);
        Assert.InRange(week.Of(DayOfWeek.Wednesday), 1.3, 1.5);
        Assert.Equal(5 * week.Of(DayOfWeek.Monday), week.UsualDays(Sunday.AddDays(1), 5), ByLot);
        Assert.Equal(21, week.UsualDays(Sunday, 21), Rounding);
        Assert.True(WeekShape.From(RecentDays.Of([1, 2, 3], Sunday)).IsFlat);
    }

    [Fact]
    public void A_supplier_with_few_deliveries_is_judged_with_the_others()
    {
        int[] others = [.. Enumerable.Range(0, 100).Select(i => i % 10 == 0 ? 2 : 0)];
        Assert.Equal(0.1, Lateness.Of([], others).Chance, Rounding);
        Assert.Equal((1 + (0.1 * 5)) / 6, Lateness.Of([3], others).Chance, Rounding);
        Assert.Equal(0.2, Lateness.Of([], others).Mean, Rounding);
        Assert.Equal(0.6, Lateness.Of([], others).Deviation, Rounding);
        Assert.Equal(0, Lateness.Of([0, -1], [0, -1]).Mean);
    }
}

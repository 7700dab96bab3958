using CsCheck;
using Goodsheet.Room.Buying;

namespace Goodsheet.Room.Tests.Buying;

public class CalendarTest
{
    private static readonly TimeZoneInfo London = TimeZoneInfo.FindSystemTimeZoneById("Europe/London");
    private static readonly TimeOnly HalfPastTwo = new(14, 30);

    /// <summary>The two worked examples of the function WORKDAY in Microsoft's and ISO/IEC 29500's documentation.</summary>
    [Fact]
    public void Working_days_are_counted_as_the_published_examples_count_them()
    {
        var start = new DateOnly(2008, 10, 1);
        Assert.Equal(new(2009, 4, 30), new Calendar(WorkingWeek.MondayToFriday, []).Plus(start, 151));
        Assert.Equal(new(2009, 5, 5), new Calendar(WorkingWeek.MondayToFriday, [new(2008, 11, 26), new(2008, 12, 4), new(2009, 1, 21)]).Plus(start, 151));
    }

    [Fact]
    public void A_week_counts_from_Monday_whatever_dotnet_counts_from()
    {
        Assert.True(WorkingWeek.MondayToFriday.Includes(DayOfWeek.Monday));
        Assert.False(WorkingWeek.MondayToFriday.Includes(DayOfWeek.Sunday));
        Assert.Equal(0b1000000, WorkingWeek.Of([DayOfWeek.Sunday]).Days);
    }

    [Fact]
    public void A_leap_day_and_the_year_end_are_days_like_others()
    {
        var calendar = new Calendar(WorkingWeek.MondayToFriday, [new(2027, 12, 27), new(2027, 12, 28), new(2028, 1, 3)]);
        Assert.Equal(new(2028, 2, 29), calendar.Plus(new(2028, 2, 28), 1));
        Assert.Equal(new(2028, 1, 4), calendar.Plus(new(2027, 12, 31), 1)); // 1 January is a Saturday, kept on Monday the 3rd
    }

    [Theory]
    [InlineData("2026-03-05T14:29:59", "2026-03-05", "2026-03-06")]
    [InlineData("2026-03-05T14:30:00", "2026-03-06", "2026-03-09")] // the cut-off minute itself is late
    [InlineData("2026-03-05T14:31:00", "2026-03-06", "2026-03-09")]
    [InlineData("2026-03-07T09:00:00", "2026-03-09", "2026-03-10")] // a Saturday counts for Monday
    public void An_order_counts_for_the_day_whose_cut_off_it_makes(string sent, string counts, string comes)
    {
        var promise = Clock().Promise(HalfPastTwo, 1, Instant(sent));
        Assert.Equal((DateOnly.Parse(counts, null), DateOnly.Parse(comes, null)), (promise.CountsFor, promise.ComesOn));
    }

    [Fact]
    public void What_waiting_costs_is_said_order_before_half_past_two_on_Thursday_or_it_comes_on_Tuesday()
    {
        // Delivers on Tuesdays and Fridays only.
        var clock = Clock(delivers: WorkingWeek.Of([DayOfWeek.Tuesday, DayOfWeek.Friday]));
        var promise = clock.Promise(HalfPastTwo, 1, Instant("2026-03-04T16:00:00"));
        Assert.Equal(new(2026, 3, 6), promise.ComesOn);
        Assert.Equal((Instant("2026-03-05T14:30:00"), new DateOnly(2026, 3, 10)), (promise.CutOff, promise.ThenComesOn));
    }

    [Fact]
    public void A_cut_off_follows_the_suppliers_own_clock_over_both_clock_changes()
    {
        var clock = Clock(week: WorkingWeek.EveryDay);
        Assert.Equal(Utc(2026, 3, 28, 14, 30), clock.CutOffOn(new(2026, 3, 28), HalfPastTwo));
        Assert.Equal(Utc(2026, 3, 29, 13, 30), clock.CutOffOn(new(2026, 3, 29), HalfPastTwo));
        Assert.Equal(Utc(2026, 3, 29, 1, 30), clock.CutOffOn(new(2026, 3, 29), new(1, 30))); // 01:30 is left out: 02:30 summer time
        Assert.Equal(Utc(2026, 10, 25, 0, 30), clock.CutOffOn(new(2026, 10, 25), new(1, 30))); // 01:30 comes twice: the first
    }

    [Fact]
    public void An_order_sent_later_never_comes_earlier() =>
        Gen.Select(Gen.Int[0, 60 * 24 * 400], Gen.Int[1, 3_000], Gen.Int[0, 23], Gen.Int[0, 5], Gen.Int[1, 127]).Sample((minute, later, hour, lead, week) =>
        {
            var clock = Clock(week: new(week), closed: [new(2026, 12, 25), new(2026, 12, 28), new(2027, 1, 1)]);
            var sent = Utc(2026, 1, 1, 0, 0).AddMinutes(minute);
            var (one, other) = (clock.Promise(new(hour, 0), lead, sent), clock.Promise(new(hour, 0), lead, sent.AddMinutes(later)));
            Assert.True(one.ComesOn <= other.ComesOn);
            Assert.True(sent < one.CutOff && one.ThenComesOn > one.ComesOn);
        });

    private static SupplierClock Clock(WorkingWeek? week = null, WorkingWeek? delivers = null, DateOnly[]? closed = null) =>
        new(London, new(week ?? WorkingWeek.MondayToFriday, closed ?? []), new(delivers ?? week ?? WorkingWeek.MondayToFriday, closed ?? []));

    private static DateTimeOffset Instant(string local) =>
        new(DateTime.Parse(local, System.Globalization.CultureInfo.InvariantCulture), TimeSpan.Zero); // March before the change: UTC

    private static DateTimeOffset Utc(int year, int month, int day, int hour, int minute) => new(year, month, day, hour, minute, 0, TimeSpan.Zero);
}

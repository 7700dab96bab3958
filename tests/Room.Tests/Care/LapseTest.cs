using Goodsheet.Room.Care;

namespace Goodsheet.Room.Tests.Care;

/// <summary>2026-03-02 is a Monday; the room works Monday to Friday.</summary>
public sealed class LapseTest
{
    [Theory]
    [InlineData(1, "2026-03-02", "2026-03-03", null)] // due on the day itself is in time
    [InlineData(1, "2026-03-02", "2026-03-04", "2026-03-03")]
    [InlineData(1, "2026-03-06", "2026-03-09", null)] // Friday to Monday: the room was closed between
    [InlineData(1, "2026-03-06", "2026-03-10", "2026-03-09")]
    [InlineData(7, "2026-03-02", "2026-03-09", null)]
    [InlineData(7, "2026-03-02", "2026-03-10", "2026-03-09")]
    public void A_task_has_lapsed_when_a_working_day_after_its_due_day_has_come(int every, string last, string day, string? due)
    {
        var task = new CareTask { Number = 1, Name = "Nozzle check", EveryDays = every };
        var lapse = Lapse.On(task, [D(last).AddDays(-30), D(last)], D(day), d => d.DayOfWeek is not (DayOfWeek.Saturday or DayOfWeek.Sunday));
        Assert.Equal(due is null ? null : D(due), lapse?.Due);
    }

    [Fact]
    public void A_task_never_done_has_no_interval_to_miss_and_what_was_done_later_does_not_count()
    {
        var task = new CareTask { Number = 1, Name = "Nozzle check", EveryDays = 1 };
        Assert.Null(Lapse.On(task, [D("2026-03-05")], D("2026-03-04"), _ => true));
        Assert.Equal(D("2026-03-03"), Lapse.On(task, [D("2026-03-02"), D("2026-03-05")], D("2026-03-04"), _ => true)?.Due);
    }

    [Fact]
    public void Days_give_least_middle_and_most_on_the_rooms_own_clock()
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById("Europe/London");
        ClimateReading At(int day, int hour, double celsius, double humidity) => new() { At = new(2026, 7, day, hour, 30, 0, TimeSpan.Zero), Temperature = celsius, Humidity = humidity };
        var days = AirLog.Days([At(1, 22, 20, 50), At(1, 23, 21, 40), At(2, 9, 25, 44), At(2, 12, 23, 60), At(2, 13, 24, 48)], zone);
        Assert.Equal([1, 4], days.Select(d => d.Readings)); // half past eleven at night UTC is the next day in summer
        Assert.Equal(new Spread(21, 23.5, 25), days[1].Temperature);
        Assert.Equal(new Spread(40, 46, 60), days[1].Humidity);
    }

    [Fact]
    public void A_silence_much_longer_than_the_usual_step_is_a_gap()
    {
        var start = new DateTimeOffset(2026, 3, 2, 0, 0, 0, TimeSpan.Zero);
        int[] minutes = [0, 10, 20, 30, 60, 70, 80, 111, 121, 131];
        var gap = Assert.Single(AirLog.Gaps([.. minutes.Select(m => start.AddMinutes(m))])); // 30 is three steps: not yet; 31 is more
        Assert.Equal((start.AddMinutes(80), start.AddMinutes(111)), (gap.From, gap.To));
    }

    private static DateOnly D(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd");
}

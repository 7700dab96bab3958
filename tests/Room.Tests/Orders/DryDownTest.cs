using Goodsheet.Room.Orders;

namespace Goodsheet.Room.Tests.Orders;

public sealed class DryDownTest
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void An_order_is_dry_when_its_last_print_is_each_by_its_own_paper()
    {
        DryDown.Made[] made = [new(Noon, 4, 0), new(Noon.AddHours(1), 0.5, 0), new(null, 24, 0)];
        Assert.Equal(Noon.AddHours(4), DryDown.At(made));
        Assert.IsType<DryDown.Drying>(DryDown.Wait(made, Noon.AddHours(4).AddTicks(-1), TimeZoneInfo.Utc));
        Assert.Null(DryDown.Wait(made, Noon.AddHours(4), TimeZoneInfo.Utc));
    }

    [Fact]
    public void What_is_not_printed_is_not_dry_however_long_ago_the_rest_was()
    {
        DryDown.Made[] made = [new(Noon, 4, 0), new(null, 1, 1)];
        Assert.Equal(new DryDown.NotMade(1), DryDown.Wait(made, Noon.AddDays(9), TimeZoneInfo.Utc));
    }

    [Fact]
    public void Of_prints_whose_run_is_not_known_nothing_is_waited_for()
    {
        Assert.Null(DryDown.At([new(null, 4, 0)]));
        Assert.Null(DryDown.Wait([new(null, 4, 0)], Noon, TimeZoneInfo.Utc));
    }

    [Fact]
    public void The_time_is_said_by_the_rooms_clock()
    {
        var zone = TimeZoneInfo.CreateCustomTimeZone("two", TimeSpan.FromHours(2), "two", "two");
        Assert.Contains("18:00", DryDown.Wait([new(Noon, 4, 0)], Noon, zone)!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void No_other_step_goes_before_the_dry_down()
    {
        FinishStep Step(int number, FinishKind kind, DateTimeOffset? done = null) => new() { Order = 1, Number = number, Kind = kind, DoneAt = done };
        var trim = Step(2, FinishKind.Trim);
        Assert.IsType<DryDown.ComesFirst>(DryDown.Before([Step(1, FinishKind.DryDown), trim], trim));
        Assert.Null(DryDown.Before([Step(1, FinishKind.DryDown, Noon), trim], trim));
        Assert.Null(DryDown.Before([trim], trim)); // a paper that need not dry
    }
}

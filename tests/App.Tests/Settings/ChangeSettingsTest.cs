using Goodsheet.App.Settings;
using static Xunit.TestContext;

namespace Goodsheet.App.Tests.Settings;

public sealed class ChangeSettingsTest
{
    private static readonly ChangeSettings.Request Asked = new("An invented room", "Pacific/Auckland", "en-DE", new(7, 0), new(16, 30));

    [Fact]
    public async Task The_clock_on_the_wall_and_the_numbers_follow_at_once_and_after_a_restart()
    {
        await using var room = await FreshRoom.InFileAsync();
        var (clock, numbers) = (new RoomClock(), new RoomNumbers());
        Assert.True((await new ChangeSettings(room.Store, clock, numbers).RunAsync(Asked, Current.CancellationToken)).Granted);
        Assert.Equal("Pacific/Auckland", clock.LocalTimeZone.Id);
        Assert.Equal("1.234,5", (1234.5).ToString("N1", numbers.Culture));

        var settings = await new ShowSettings(room.Store).RunAsync(Current.CancellationToken);
        Assert.Equal((Asked.Name, Asked.TimeZone, Asked.Culture, Asked.Opens, Asked.Closes), (settings.Name, settings.TimeZone, settings.Culture, settings.Opens, settings.Closes));
        Assert.Equal("Pacific/Auckland", (await room.Store.ClockAsync(Current.CancellationToken)).LocalTimeZone.Id);
    }

    [Fact]
    public async Task What_no_room_can_be_is_refused_and_changes_nothing()
    {
        await using var room = await FreshRoom.InFileAsync();
        var (clock, numbers) = (new RoomClock(), new RoomNumbers());
        var (change, before) = (new ChangeSettings(room.Store, clock, numbers), (clock.LocalTimeZone, numbers.Culture));
        Assert.IsType<ChangeSettings.NoName>((await change.RunAsync(Asked with { Name = " " }, Current.CancellationToken)).Refusal);
        Assert.IsType<ChangeSettings.NoName>((await change.RunAsync(Asked with { Name = "a\nb" }, Current.CancellationToken)).Refusal);
        Assert.IsType<ChangeSettings.NoSuchZone>((await change.RunAsync(Asked with { TimeZone = "Nowhere/At_all" }, Current.CancellationToken)).Refusal);
        Assert.IsType<ChangeSettings.NoSuchForm>((await change.RunAsync(Asked with { Culture = "xx" }, Current.CancellationToken)).Refusal);
        Assert.IsType<ChangeSettings.ClosesBeforeItOpens>((await change.RunAsync(Asked with { Closes = Asked.Opens }, Current.CancellationToken)).Refusal);
        Assert.NotEqual(Asked.Name, (await new ShowSettings(room.Store).RunAsync(Current.CancellationToken)).Name);
        Assert.Equal(before, (clock.LocalTimeZone, numbers.Culture));
    }
}

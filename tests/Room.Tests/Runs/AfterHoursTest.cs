using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.Room.Tests.Runs;

public sealed class AfterHoursTest
{
    private static readonly DateTimeOffset Closes = new(2026, 3, 2, 17, 30, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(Feed.OneByOne, 0, AfterHours.EndsInTime)] // at the minute it closes somebody is still there
    [InlineData(Feed.OneByOne, 1, AfterHours.WaitsForHands)]
    [InlineData(Feed.TwoOrThree, 1, AfterHours.WaitsForHands)]
    [InlineData(Feed.Stack, 1, AfterHours.PrintsOn)]
    [InlineData(Feed.Roll, 1, AfterHours.PrintsOn)]
    [InlineData(Feed.Roll, -30, AfterHours.EndsInTime)]
    public void What_feeds_itself_prints_on_and_what_is_fed_by_hand_waits(Feed feed, int minutesAfter, AfterHours becomes) =>
        Assert.Equal(becomes, AfterHoursRule.Of(feed, Closes.AddMinutes(minutesAfter), Closes));
}

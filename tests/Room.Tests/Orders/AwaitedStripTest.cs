using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Tests.Orders;

public class AwaitedStripTest
{
    private const string Recipe = "profile 7; as it is";

    [Fact]
    public void A_print_that_asks_for_none_waits_for_none() => Assert.Equal(StripWait.Nothing, Wait(false, Recipe, null));

    [Fact]
    public void One_is_made_printed_and_judged_in_turn()
    {
        Assert.Equal(StripWait.ToMake, Wait(true, Recipe, null));
        Assert.Equal(StripWait.ToPrint, Wait(true, Recipe, Strip(Recipe, printed: false, StripSays.Nothing)));
        Assert.Equal(StripWait.ToJudge, Wait(true, Recipe, Strip(Recipe, printed: true, StripSays.Nothing)));
        Assert.Equal(StripWait.Nothing, Wait(true, Recipe, Strip(Recipe, printed: true, StripSays.GoOn)));
    }

    [Fact]
    public void One_that_says_change_and_one_of_the_print_as_it_was_settle_nothing()
    {
        Assert.Equal(StripWait.ToMake, Wait(true, Recipe, Strip(Recipe, printed: true, StripSays.Change)));
        Assert.Equal(StripWait.ToMake, Wait(true, "profile 8; as it is", Strip(Recipe, printed: true, StripSays.GoOn)));
        Assert.Equal(StripWait.Nothing, Wait(true, null, Strip(Recipe, printed: true, StripSays.GoOn))); // not prepared yet: what it will be made with is asked again then
    }

    private static StripWait Wait(bool first, string? recipe, TestStrip? last) => AwaitedStrip.Of(
        new()
        {
            Order = 2001,
            Line = 1,
            Title = "Low Water",
            ImageHash = "0",
            ImageName = "a.tif",
            PixelsWide = 10,
            PixelsHigh = 10,
            Width = Length.FromMillimetres(300),
            Height = Length.FromMillimetres(200),
            Paper = new("cotton"),
            Copies = 1,
            StripFirst = first,
            Recipe = recipe,
        },
        last).Wait;

    private static TestStrip Strip(string recipe, bool printed, StripSays says) => new()
    {
        Order = 2001,
        Line = 1,
        Number = 1,
        X = default,
        Y = default,
        Width = TestStrip.UsualWidth,
        Height = TestStrip.UsualHeight,
        Place = PlaceKind.Chosen,
        Profile = 7,
        Recipe = recipe,
        FileHash = "1",
        At = DateTimeOffset.UnixEpoch,
        By = new("Mira"),
        PrintedAt = printed ? DateTimeOffset.UnixEpoch : null,
        Says = says,
    };
}

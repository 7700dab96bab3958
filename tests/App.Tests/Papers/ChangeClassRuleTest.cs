using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Papers;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Tests.Papers;

public sealed class ChangeClassRuleTest
{
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_room_s_own_way_is_kept_and_the_usual_comes_back()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var change = new ChangeClassRule(room.Store, clock);
        var own = ChangeClassRule.Usual(PaperClass.Canvas);
        (own.Handling, own.UsualFeed, own.BrushBeforeFeeding) = ("Leave it a day before coating.", Feed.OneByOne, true);

        Assert.True((await change.RunAsync(new(new("Mira"), PaperClass.Canvas, own), Cancel)).Granted);
        await using (var db = room.Store.Open())
        {
            var kept = await db.ClassRules.SingleAsync(r => r.Class == PaperClass.Canvas, Cancel);
            Assert.Equal(("Leave it a day before coating.", Feed.OneByOne, true), (kept.Handling, kept.UsualFeed, kept.BrushBeforeFeeding));
        }

        Assert.True((await change.RunAsync(new(new("Mira"), PaperClass.Canvas, null), Cancel)).Granted);
        await using var after = room.Store.Open();
        Assert.Equal(ChangeClassRule.Usual(PaperClass.Canvas).Handling, (await after.ClassRules.SingleAsync(r => r.Class == PaperClass.Canvas, Cancel)).Handling);
        Assert.Equal(2, await after.Decisions.CountAsync(Cancel));
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(4.1)]
    [InlineData(double.NaN)]
    public async Task A_density_that_cannot_be_is_refused(double density)
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var own = ChangeClassRule.Usual(PaperClass.Gloss);
        own.LeastDMax = density;
        Assert.IsType<ChangeClassRule.CannotBe>((await new ChangeClassRule(room.Store, clock).RunAsync(new(new("Mira"), PaperClass.Gloss, own), Cancel)).Refusal);
    }
}

using Goodsheet.App.Runs;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Tests.Runs;

/// <summary>The list of runs: what is printing and waits stands first, what is over follows in parts, and none is out of reach.</summary>
public sealed class ShowRunsTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_is_not_over_stands_first_and_what_is_over_follows_twenty_at_a_time_to_the_first()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        await press.ChangeAsync(db =>
        {
            db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A2, PackSize = 25 });
            db.Runs.AddRange(Enumerable.Range(401, 45).Select(n => new Run
            {
                Number = n,
                Printer = FreshRoom.Heron,
                Paper = FreshRoom.Cotton,
                Format = FreshRoom.A2,
                Condition = PressRoom.Condition,
                Profile = PressRoom.Profile,
                Black = BlackInk.Matte,
                State = n switch { 405 => RunState.Planned, 430 => RunState.Printing, 420 => RunState.Stopped, _ => RunState.Done },
                Needs = 1,
                Layout = "{}",
            }));
            return Task.CompletedTask;
        });
        var show = new ShowRuns(press.Store);
        var page = await show.RunAsync(cancel: Cancel);
        Assert.Equal([430, 405], page.Open.Select(l => l.Run.Number));
        var over = page.Over.Select(l => l.Run.Number).ToList();
        while (page.Older is { } older)
        {
            page = await show.RunAsync(older, Cancel);
            Assert.Empty(page.Open);
            Assert.InRange(page.Over.Count, 1, 20);
            over.AddRange(page.Over.Select(l => l.Run.Number));
        }

        Assert.Equal(Enumerable.Range(401, 45).Except([405, 430]).Reverse(), over);
    }
}

using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Control;
using Goodsheet.App.Files;
using Goodsheet.App.Layout;
using Goodsheet.App.Orders;
using Goodsheet.App.Profiles;
using Goodsheet.App.Runs;
using Goodsheet.App.Tests.Orders;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Tests.Runs;

/// <summary>What stands in the way of a run at its card: nothing is drawn until it is settled, or a named person decides.</summary>
public sealed class RunStopsTest : IDisposable
{
    private const int Newer = 8;

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-stops-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private FileShelf Files => new(Path.Combine(folder, "files"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Another_black_in_the_printer_is_said_and_nothing_is_drawn_until_it_is_ticked()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var run = await press.PlannedAsync(lot);
        var start = new StartRun(press.Store, press.Clock);
        Assert.Equal(
            new StartRun.AnotherBlackIsIn(run, "Heron", BlackInk.Photo, BlackInk.Matte),
            (await start.RunAsync(new(CommandId.New(), PressRoom.Mira, run), Cancel)).Refusal);
        Assert.Equal(5, (await press.BalanceAsync(lot)).OnShelf);
        Assert.True((await start.RunAsync(new(CommandId.New(), PressRoom.Mira, run, BlackIsIn: true), Cancel)).Granted);
        await using var db = press.Store.Open();
        Assert.Equal(BlackInk.Matte, (await db.Loaded.SingleAsync(Cancel)).Black);
    }

    [Fact]
    public async Task A_condition_that_prints_with_the_wrong_black_for_its_paper_stops()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        await press.ChangeAsync(async db => await db.Conditions.ExecuteUpdateAsync(c => c.SetProperty(x => x.Black, BlackInk.Photo), Cancel));
        Assert.Equal(new RunRules.WrongBlack("Test Cotton 300", BlackInk.Matte, BlackInk.Photo), await OnlyStopAsync(press));
    }

    [Fact]
    public async Task A_printer_that_has_no_such_feed_path_stops()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        await press.ChangeAsync(async db => (await db.Printers.SingleAsync(Cancel)).FeedPaths = 0b1011); // all but one by one
        Assert.Equal(new RunRules.NoFeedPath("Heron", "Test Cotton 300", Feed.OneByOne), await OnlyStopAsync(press));
    }

    [Fact]
    public async Task A_roll_needs_the_roll_path_and_not_its_paper_s_own()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 560, 400, 1));
        await press.ChangeAsync(async db => (await db.Printers.SingleAsync(Cancel)).FeedPaths = 0b1000);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.Roll, 15_000));
        Assert.True((await press.StartAsync(run)).Granted);
    }

    [Fact]
    public async Task A_change_since_the_profile_was_confirmed_stops_until_it_is_confirmed_again()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        await FingerprintAsync(press);
        press.Clock.Advance(TimeSpan.FromDays(1));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.True((await new NoteChange(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, PressRoom.Condition, NoteChange.Part.Driver, "7.2"), Cancel)).Granted);
        Assert.Equal(new RunRules.ConditionChanged(PressRoom.Profile, "Driver update: 7.2"), StopOf(await press.StartAsync(run)));

        press.Clock.Advance(TimeSpan.FromDays(1));
        await press.ChangeAsync(async db => (await db.Profiles.SingleAsync(Cancel)).CheckedAt = press.Clock.GetUtcNow()); // as a strip does that stands where strips usually do
        Assert.True((await press.StartAsync(run)).Granted);
    }

    [Fact]
    public async Task What_was_changed_and_changed_back_does_not_stop()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        await FingerprintAsync(press);
        press.Clock.Advance(TimeSpan.FromDays(1));
        var note = new NoteChange(press.Store, press.Clock);
        await note.RunAsync(new(PressRoom.Mira, PressRoom.Condition, NoteChange.Part.Driver, "7.2"), Cancel);
        await note.RunAsync(new(PressRoom.Mira, PressRoom.Condition, NoteChange.Part.Driver, "7.1"), Cancel);
        Assert.True((await press.StartAsync(await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5)))).Granted);
    }

    [Fact]
    public async Task A_decision_holds_for_what_stood_in_the_way_then_and_not_for_what_comes_later()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        await press.ChangeAsync(async db => (await db.Profiles.SingleAsync(Cancel)).Standing = Standing.Drifting);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.IsType<RunRules.ProfileIsNotTrusted>(StopOf(await press.StartAsync(run)));
        var goOn = new GoOnWithRun(press.Store, press.Clock);
        Assert.IsType<GoOnWithRun.SayWhy>((await goOn.RunAsync(new(PressRoom.Mira, run, " "), Cancel)).Refusal);
        Assert.True((await goOn.RunAsync(new(PressRoom.Mira, run, "greys look right"), Cancel)).Granted);
        await press.ChangeAsync(async db => (await db.Printers.SingleAsync(Cancel)).FeedPaths = 0b1011);
        Assert.IsType<RunRules.NoFeedPath>(StopOf(await press.StartAsync(run)));
        Assert.True((await goOn.RunAsync(new(PressRoom.Mira, run, "held by hand"), Cancel)).Granted);
        Assert.True((await press.StartAsync(run)).Granted);

        var card = (await new ShowRuns(press.Store).CardAsync(run, Cancel))!;
        Assert.Equal(
            ["go on while profile 7 is drifting: greys look right", "go on though Heron does not feed one by one, art path: held by hand"],
            card.Decided.Select(d => $"{d.What}: {d.Why}"));
    }

    [Fact]
    public async Task A_change_that_stops_several_runs_is_decided_once_for_those_that_wait_and_for_nothing_else_of_theirs()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 273, 1));
        await FingerprintAsync(press);
        press.Clock.Advance(TimeSpan.FromDays(1));
        await OrderAsync(press, 2212);
        await OrderAsync(press, 2213);
        await OrderAsync(press, 2214);
        var lot = await press.StockAsync(FreshRoom.A2, 9);
        var first = await press.PlannedAsync(lot);
        var second = await PlannedAsync(2212);
        var third = await PlannedAsync(2213);
        Assert.True((await new SayHowLaid(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, 2213, 1, true, false, StripFirst: true), Cancel)).Granted);
        Assert.Empty((await new ShowRuns(press.Store).CardAsync(first, Cancel))!.Alike); // nothing has changed yet
        await new NoteChange(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, PressRoom.Condition, NoteChange.Part.Driver, "7.2"), Cancel);
        Assert.Equal([second, third], (await new ShowRuns(press.Store).CardAsync(first, Cancel))!.Alike);

        var goOn = new GoOnWithRun(press.Store, press.Clock);
        Assert.Equal([second, third], (await goOn.RunAsync(new(PressRoom.Mira, first, "a print beside the old one is the same", Alike: true), Cancel)).Value!.Alike);
        Assert.True((await press.StartAsync(first)).Granted);
        Assert.True((await press.StartAsync(second)).Granted);
        Assert.IsType<RunRules.StripNotLookedAt>(StopOf(await press.StartAsync(third))); // the change is decided, its strip is not
        var decided = Assert.Single((await new ShowRuns(press.Store).CardAsync(second, Cancel))!.Decided);
        Assert.Equal($"a print beside the old one is the same (decided once for runs {first}, {second}, {third})", decided.Why);

        var later = await PlannedAsync(2214); // planned afterwards: nobody decided about it
        Assert.IsType<RunRules.ConditionChanged>(StopOf(await press.StartAsync(later)));
        Assert.Empty((await new ShowRuns(press.Store).CardAsync(later, Cancel))!.Alike);

        async Task<int> PlannedAsync(int order) => (await new PlanRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, order, lot), Cancel)).Value!.Run;
    }

    [Fact]
    public async Task Files_of_a_profile_that_was_retired_later_are_prepared_again_by_one_press()
    {
        await using var press = await PreparedAsync();
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        var second = await KeepAsync(IccVersion.V2);
        await press.ChangeAsync(db =>
        {
            db.Profiles.Add(new()
            {
                Number = Newer,
                Condition = PressRoom.Condition,
                Version = 3,
                Name = "Test Cotton on Heron, newer",
                FileHash = second,
                MadeAt = press.Clock.GetUtcNow(),
                By = PressRoom.Mira,
                Standing = Standing.New,
            });
            return Task.CompletedTask;
        });
        await new DecideProfile(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, Newer, Standing.Trusted, "a print was held beside it"), Cancel);

        Assert.IsType<RunRules.ProfileIsNotTrusted>(StopOf(await press.StartAsync(run)));
        Assert.True((await new ShowRuns(press.Store).CardAsync(run, Cancel))!.Halts.Single().PrepareAgain);
        var before = await LineAsync(press);
        Assert.Contains($"profile {Newer}", await new PrepareRunAgain(press.Store, Files, press.Clock).DoNowAsync($"Files of run {run} made again", Cancel), StringComparison.Ordinal);
        var after = await LineAsync(press);
        Assert.NotEqual(before.PreparedHash, after.PreparedHash);
        Assert.StartsWith($"profile {Newer};", after.Recipe, StringComparison.Ordinal);
        Assert.True((await press.StartAsync(run)).Granted);
    }

    [Fact]
    public async Task A_run_laid_with_files_of_a_retired_profile_says_so_and_goes_by_the_one_its_files_were_made_with_when_that_holds()
    {
        await using var press = await PreparedAsync();
        var second = await KeepAsync(IccVersion.V2);
        await press.ChangeAsync(db =>
        {
            db.Profiles.Add(new()
            {
                Number = Newer,
                Condition = PressRoom.Condition,
                Version = 3,
                Name = "newer",
                FileHash = second,
                MadeAt = press.Clock.GetUtcNow(),
                By = PressRoom.Mira,
                Standing = Standing.Trusted,
            });
            return Task.CompletedTask;
        });
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var holds = await press.PlannedAsync(lot);
        await press.ChangeAsync(async db => (await db.Profiles.SingleAsync(p => p.Number == PressRoom.Profile, Cancel)).Standing = Standing.Retired);
        await press.ChangeAsync(async db => (await db.Runs.SingleAsync(r => r.Number == holds, Cancel)).State = RunState.Cancelled); // prints are in one run only
        var late = await press.PlannedAsync(lot);
        await using var db = press.Store.Open();
        Assert.Equal([PressRoom.Profile, Newer], await db.Runs.Where(r => r.Number == holds || r.Number == late).OrderBy(r => r.Number).Select(r => r.Profile).ToListAsync(Cancel));
        var stop = Assert.IsType<RunRules.FilesOfAnotherProfile>(StopOf(await press.StartAsync(late)));
        Assert.Equal((PressRoom.Profile, true, Newer), (stop.Made, stop.IsRetired, stop.Profile));
    }

    [Fact]
    public async Task A_test_strip_that_says_change_stops_a_run_of_the_print_as_it_was()
    {
        await using var press = await PreparedAsync();
        await press.ChangeAsync(async db => db.TestStrips.Add(new()
        {
            Order = PressRoom.Order,
            Line = 1,
            Number = 1,
            X = default,
            Y = default,
            Width = default,
            Height = default,
            Place = Room.Orders.PlaceKind.Chosen,
            Profile = PressRoom.Profile,
            Recipe = (await db.PrintLines.SingleAsync(Cancel)).Recipe!,
            FileHash = "03",
            At = press.Clock.GetUtcNow(),
            By = PressRoom.Mira,
            Says = Room.Orders.StripSays.Change,
            Why = "the shadows close",
        }));
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.Equal(new RunRules.StripSaysChange(PressRoom.Order, 1, 1, "the shadows close"), StopOf(await press.StartAsync(run)));
        await press.ChangeAsync(async db => (await db.TestStrips.SingleAsync(Cancel)).Says = Room.Orders.StripSays.GoOn);
        Assert.True((await press.StartAsync(run)).Granted);
    }

    [Fact]
    public async Task A_print_that_asks_for_a_test_strip_is_not_begun_before_it_was_looked_at()
    {
        await using var press = await PreparedAsync();
        Assert.True((await new SayHowLaid(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, PressRoom.Order, 1, true, false, StripFirst: true), Cancel)).Granted);
        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.Equal(new RunRules.StripNotLookedAt(PressRoom.Order, 1, "Low Water", Room.Orders.StripWait.ToMake), StopOf(await press.StartAsync(run)));
        await press.ChangeAsync(async db => db.TestStrips.Add(new()
        {
            Order = PressRoom.Order,
            Line = 1,
            Number = 1,
            X = default,
            Y = default,
            Width = default,
            Height = default,
            Place = Room.Orders.PlaceKind.Chosen,
            Profile = PressRoom.Profile,
            Recipe = (await db.PrintLines.SingleAsync(Cancel)).Recipe!,
            FileHash = "03",
            At = press.Clock.GetUtcNow(),
            By = PressRoom.Mira,
            PrintedAt = press.Clock.GetUtcNow(),
        }));
        Assert.Equal(Room.Orders.StripWait.ToJudge, ((RunRules.StripNotLookedAt)StopOf(await press.StartAsync(run))).Wait);
        var card = (await new ShowRuns(press.Store).CardAsync(run, Cancel))!;
        Assert.Equal(("printed, to be looked at", (PressRoom.Order, 1)), (card.Strips.Single().Says, card.Halts.Single().Strip));

        Assert.True((await new JudgeTestStrip(press.Store, press.Clock).RunAsync(new(PressRoom.Mira, PressRoom.Order, 1, 1, Room.Orders.StripSays.GoOn, ""), Cancel)).Granted);
        Assert.Equal("Mira looked at it: go on", (await new ShowRuns(press.Store).CardAsync(run, Cancel))!.Strips.Single().Says);
        Assert.True((await press.StartAsync(run)).Granted);
    }

    [Fact]
    public async Task A_printer_whose_driver_takes_8_bits_gets_8_bits()
    {
        await using var press = await PreparedAsync(eightBits: true);
        Assert.Equal(8, ImageFile.Probe(Files.PathOf((await LineAsync(press)).PreparedHash!)).Value!.Depth);
    }

    private static Task OrderAsync(PressRoom press, int number) => press.ChangeAsync(async db =>
    {
        var first = await db.PrintLines.AsNoTracking().FirstAsync(l => l.Order == PressRoom.Order, Cancel);
        db.Orders.Add(new() { Number = number, Client = 1, TakenAt = press.Clock.GetUtcNow(), TakenBy = PressRoom.Mira, Promised = press.Clock.GetUtcNow().AddHours(3), State = Room.Orders.OrderState.Approved });
        db.PrintLines.Add(new()
        {
            Order = number,
            Line = 1,
            Title = $"Print of {number}",
            ImageHash = first.ImageHash,
            ImageName = first.ImageName,
            PixelsWide = first.PixelsWide,
            PixelsHigh = first.PixelsHigh,
            Width = first.Width,
            Height = first.Height,
            Paper = first.Paper,
            Copies = 1,
            PreparedHash = first.PreparedHash,
        });
    });

    private static async Task FingerprintAsync(PressRoom press) => await press.ChangeAsync(db =>
    {
        db.Fingerprints.Add(new() { Condition = PressRoom.Condition, Number = 1, Firmware = "3", Driver = "7.1", System = "invented", Ink = "", At = press.Clock.GetUtcNow(), By = PressRoom.Mira });
        return Task.CompletedTask;
    });

    private static Refusal StopOf(Outcome<StartRun.Done> outcome) => Assert.Single(Assert.IsType<StartRun.IsStopped>(outcome.Refusal).Stops).Why;

    private static async Task<Refusal> OnlyStopAsync(PressRoom press)
    {
        var lot = await press.StockAsync(FreshRoom.A2, 5);
        var stop = StopOf(await press.StartAsync(await press.PlannedAsync(lot)));
        Assert.Equal(5, (await press.BalanceAsync(lot)).OnShelf);
        return stop;
    }

    private static async Task<Room.Orders.PrintLine> LineAsync(PressRoom press)
    {
        await using var db = press.Store.Open();
        return await db.PrintLines.AsNoTracking().SingleAsync(Cancel);
    }

    private async Task<PressRoom> PreparedAsync(bool eightBits = false)
    {
        var press = await PressRoom.OpenAsync(("Low Water", 30, 20, 1));
        var image = await Files.KeepMadeAsync(Pictures.Good(folder, "low water.tif"), Cancel);
        var first = await KeepAsync(IccVersion.V4);
        await press.ChangeAsync(async db =>
        {
            (await db.Printers.SingleAsync(Cancel)).EightBits = eightBits;
            await db.PrintLines.ExecuteUpdateAsync(l => l.SetProperty(x => x.ImageHash, image.Hash).SetProperty(x => x.PreparedHash, (string?)null), Cancel);
            await db.Profiles.ExecuteUpdateAsync(p => p.SetProperty(x => x.FileHash, first), Cancel);
        });
        await new PreparePrint(press.Store, Files, press.Clock).DoNowAsync($"print {PressRoom.Order}/1", Cancel);
        return press;
    }

    private async Task<string> KeepAsync(IccVersion version)
    {
        var path = Files.NewPath(".icc");
        await File.WriteAllBytesAsync(path, IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb), version), Cancel);
        return (await Files.KeepMadeAsync(path, Cancel)).Hash;
    }
}

using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Care;
using Goodsheet.App.Control;
using Goodsheet.App.Files;
using Goodsheet.App.Papers;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room;
using Goodsheet.Room.Control;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Tests.Control;

/// <summary>What happened when: events of the printer, settings chosen by a printed test, profiles that were brought in.</summary>
public sealed class HistoryTest : IAsyncLifetime
{
    private static readonly PersonName Mira = new("Mira");

    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
    private FreshRoom room = null!;
    private FileShelf files = null!;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        files = new(Path.Combine(room.Folder, "files"));
    }

    public ValueTask DisposeAsync() => room.DisposeAsync();

    [Fact]
    public async Task A_cleaned_head_stands_in_the_plot_whether_it_was_noted_or_ticked_and_a_new_head_asks_for_a_strip()
    {
        var (condition, profile) = await WatchedAsync();
        Assert.True((await TakeAsync(profile)).Granted);
        clock.Advance(TimeSpan.FromHours(1));
        var note = new NoteEvent(room.Store, clock);
        Assert.Equal("Head cleaned: cyan had a gap", (await note.RunAsync(new(Mira, FreshRoom.Heron, EventKind.HeadCleaning, " cyan had a gap "), Cancel)).Value!.InWords);
        Assert.DoesNotContain(await ChecksAsync(), c => c.IsDue);
        Assert.IsType<NoteEvent.SayWhat>((await note.RunAsync(new(Mira, FreshRoom.Heron, EventKind.Other), Cancel)).Refusal);
        Assert.IsType<NoteEvent.NotYet>((await note.RunAsync(new(Mira, FreshRoom.Heron, EventKind.NewHead, At: clock.GetUtcNow().AddDays(1)), Cancel)).Refusal);
        Assert.IsType<NoteEvent.NoSuchPrinter>((await note.RunAsync(new(Mira, new("none"), EventKind.NewHead), Cancel)).Refusal);

        await new TakeUsualCare(room.Store).RunAsync(Cancel);
        var task = (await new ShowCare(room.Store, clock).RunAsync(Cancel)).Due.First(t => t.Name == "Nozzle check");
        Assert.True((await new ChangeTask(room.Store).RunAsync(new(task.Number, "Weekly cleaning", 7, null, "", "", null, EventKind.HeadCleaning), Cancel)).Granted);
        clock.Advance(TimeSpan.FromHours(1));
        Assert.True((await new TickTask(room.Store, clock).RunAsync(new(CommandId.New(), Mira, task.Number, 0), Cancel)).Granted);
        clock.Advance(TimeSpan.FromHours(1));
        Assert.True((await note.RunAsync(new(Mira, FreshRoom.Heron, EventKind.NewHead), Cancel)).Granted);
        Assert.Equal(
            ["Head cleaned: cyan had a gap", "Head cleaned: Weekly cleaning", "New head"], (await new ShowControl(room.Store).RunAsync(condition, Cancel))!.Events.Select(e => e.What));
        Assert.Contains(await ChecksAsync(), c => c.IsDue && c.Why == "New head since its last check");
    }

    [Fact]
    public async Task The_setting_without_a_fault_with_the_deepest_black_by_the_least_ink_is_the_one_to_take_and_stands_in_the_fingerprint()
    {
        var note = new NoteSettingTrial(room.Store, files, clock);
        var sheet = await KeepAsync(Colour.Charts.ChartDesign.Ramps(DeviceSpace.Rgb), PrinterDrift.None);
        var weak = await KeepAsync(Colour.Charts.ChartDesign.Ramps(DeviceSpace.Rgb), new(BlackInk: -0.3));
        async Task<Guid> TryAsync(string media, int ink, TestFaults seen, string? hash) =>
            (await note.RunAsync(new(Mira, FreshRoom.Cotton, FreshRoom.Heron, media, ink, "wide", seen, FileHash: hash), Cancel)).Value!.Trial;
        await TryAsync("Photo", 0, TestFaults.None, weak);
        await TryAsync("Art, heavy", 20, TestFaults.None, sheet);
        var best = await TryAsync("Art, heavy", 0, TestFaults.None, sheet);
        var struck = await TryAsync("Art, heavy", -10, TestFaults.HeadStrike, null);
        Assert.IsType<NoteSettingTrial.CannotBe>((await note.RunAsync(new(Mira, FreshRoom.Cotton, FreshRoom.Heron, " ", 0, "", 0), Cancel)).Refusal);
        Assert.IsType<NoSuchFile>((await note.RunAsync(new(Mira, FreshRoom.Cotton, FreshRoom.Heron, "Art", 0, "", 0, FileHash: "00"), Cancel)).Refusal);
        var pale = await KeepAsync([[1, 1, 1], [0.5, 0.5, 0.5]], PrinterDrift.None);
        Assert.IsType<NoteSettingTrial.NoBlack>((await note.RunAsync(new(Mira, FreshRoom.Cotton, FreshRoom.Heron, "Art", 0, "", 0, FileHash: pale), Cancel)).Refusal);

        var side = Assert.Single((await new ShowSettingTrials(room.Store).RunAsync(FreshRoom.Cotton, Cancel))!.Sides);
        Assert.Equal(best, Assert.Single(side.Choices, c => c.IsBest).Trial.Id);
        Assert.Contains("touches the paper", side.Choices.Single(c => c.Trial.Id == struck).Against, StringComparison.Ordinal);
        Assert.Contains("another reaches", side.Choices[0].Why, StringComparison.Ordinal);
        Assert.Contains("as much with less ink", side.Choices[1].Why, StringComparison.Ordinal);

        var choose = new ChooseSetting(room.Store, clock);
        Assert.IsType<ChooseSetting.NoSuchTrial>((await choose.RunAsync(new(Mira, Guid.NewGuid()), Cancel)).Refusal);
        var chosen = (await choose.RunAsync(new(Mira, best), Cancel)).Value!;
        Assert.Equal(chosen, (await choose.RunAsync(new(Mira, best), Cancel)).Value);
        await using var db = room.Store.Open();
        var condition = Assert.Single(db.Conditions);
        Assert.Equal((chosen.Condition, "Art, heavy"), (condition.Code, condition.MediaSetting));
        var prints = db.Fingerprints.OrderBy(f => f.Number).ToList();
        Assert.Equal([(1, 0, ""), (2, 0, "wide")], prints.Select(f => (f.Number, f.InkLoad, f.PlatenGap)));
        Assert.StartsWith("Chosen by a printed test: Art, heavy, ink as it is, platen gap wide", prints[1].Changed, StringComparison.Ordinal);

        var change = new NoteChange(room.Store, clock);
        Assert.IsType<NoteChange.NotPerCent>((await change.RunAsync(new(Mira, condition.Code, NoteChange.Part.InkLoad, "much"), Cancel)).Refusal);
        Assert.Equal(3, (await change.RunAsync(new(Mira, condition.Code, NoteChange.Part.InkLoad, "-5"), Cancel)).Value!.Fingerprint);
        Assert.Equal(4, (await change.RunAsync(new(Mira, condition.Code, NoteChange.Part.PlatenGap, "wider"), Cancel)).Value!.Fingerprint);
    }

    [Fact]
    public async Task A_profile_that_was_brought_in_is_watched_by_the_first_chart_read_of_its_condition_and_refused_before()
    {
        var (condition, profile) = await WatchedAsync(chart: false);
        var refused = Assert.IsType<TakeStrip.NoChart>((await TakeAsync(profile)).Refusal);
        Assert.Contains("Print a whole chart", refused.Message, StringComparison.Ordinal);
        Assert.Null((await new ShowControl(room.Store).RunAsync(condition, Cancel))!.Reference);
        Assert.IsType<TakeStrip.NoSuchProfile>((await TakeAsync(99)).Refusal);

        await BringInAsync();
        var strip = (await TakeAsync(profile)).Value!;
        Assert.Equal(Goodsheet.Colour.Control.DriftCause.Nothing, strip.Verdict.Cause);
        Assert.Equal(1, (await new ShowControl(room.Store).RunAsync(condition, Cancel))!.Reference);
        clock.Advance(TimeSpan.FromDays(1));
        var moved = (await TakeAsync(profile, new(AllInk: 0.06))).Value!;
        Assert.All(StripRemedy.Of(moved.Verdict, moved: true), r => Assert.NotEqual("", r.Brings));
        Assert.Single(StripRemedy.Of(moved.Verdict, moved: true), r => r.Corrects);
        Assert.Equal("Leave it alone", Assert.Single(StripRemedy.Of(strip.Verdict, moved: false), r => r.IsAdvised).What);
    }

    private async Task<IReadOnlyList<StripsDue.Line>> ChecksAsync() => (await new App.Today.ShowToday(room.Store, clock).RunAsync(Cancel)).Checks;

    private async Task<(ConditionCode Condition, int Profile)> WatchedAsync(bool chart = true)
    {
        if (chart)
        {
            await BringInAsync();
        }
        else
        {
            await using var before = room.Store.Open();
            before.Conditions.Add(new() { Code = new("heron-test-cotton"), Printer = FreshRoom.Heron, Paper = FreshRoom.Cotton, MediaSetting = "Art, heavy", Ppi = 360, Black = BlackInk.Matte });
            await before.SaveChangesAsync(Cancel);
        }

        await using var db = room.Store.Open();
        var condition = db.Conditions.Single().Code;
        db.Profiles.Add(new()
        {
            Number = 7,
            Condition = condition,
            Version = 1,
            Name = "Test Cotton on Heron",
            FileHash = "00",
            MadeFrom = chart ? 1 : null,
            MadeAt = clock.GetUtcNow(),
            By = Mira,
            Standing = Standing.Trusted,
        });
        await db.SaveChangesAsync(Cancel);
        return (condition, 7);
    }

    private async Task BringInAsync()
    {
        double[][] chart = [.. from r in Enumerable.Range(0, 5) from g in Enumerable.Range(0, 5) from b in Enumerable.Range(0, 5) select (double[])[r / 4.0, g / 4.0, b / 4.0]];
        Assert.True((await new BringInReading(room.Store, files, clock).RunAsync(
            new(Mira, await KeepAsync(chart, PrinterDrift.None), "chart.txt", FreshRoom.Cotton, FreshRoom.Heron, "Art, heavy"), Cancel)).Granted);
    }

    private async Task<Outcome<TakeStrip.Done>> TakeAsync(int profile, PrinterDrift? drift = null)
    {
        double[][] strip =
        [
            [1, 1, 1], [0, 1, 1], [1, 0, 1], [1, 1, 0], [0, 0, 1], [0, 1, 0], [1, 0, 0], [0, 0, 0],
            .. from v in (double[])[0.25, 0.5, 0.75] from d in (double[][])[[v, 1, 1], [1, v, 1], [1, 1, v], [v, v, v]] select d,
        ];
        return await new TakeStrip(room.Store, files, clock).RunAsync(new(Mira, await KeepAsync(strip, drift ?? PrinterDrift.None), "strip.txt", profile), Cancel);
    }

    private int seed = 40;

    private async Task<string> KeepAsync(IReadOnlyList<double[]> device, PrinterDrift drift)
    {
        var set = InventedPrinter.Read(InventedPrinter.On(new() { Surface = 0.02 }, pigment: true, drift: drift), device, seed++);
        return (await files.KeepAsync(new MemoryStream(System.Text.Encoding.UTF8.GetBytes(CgatsWriter.Write(set, "invented", "for a test"))), Cancel)).Hash;
    }
}

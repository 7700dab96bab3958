using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Control;
using Goodsheet.App.Files;
using Goodsheet.App.Profiles;
using Goodsheet.App.Runs;
using Goodsheet.App.Today;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Tests.Control;

public sealed class TakeStripTest : IAsyncLifetime
{
    private static readonly PersonName Mira = new("Mira");
    private static readonly ConditionCode Condition = new("heron-test-cotton");

    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));
    private FreshRoom room = null!;
    private FileShelf files = null!;
    private int seed = 100;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        files = new(Path.Combine(room.Folder, "files"));
        var chart = (await new BringInReading(room.Store, files, clock).RunAsync(
            new(Mira, await KeepAsync(Read(PrinterDrift.None, Chart())), "chart.txt", FreshRoom.Cotton, FreshRoom.Heron, "Art, heavy"), Cancel)).Value!.Reading;
        await using var db = room.Store.Open();
        db.Profiles.Add(new()
        {
            Number = 7,
            Condition = (await db.Conditions.SingleAsync(Cancel)).Code,
            Version = 1,
            Name = "Test Cotton on Heron",
            FileHash = "00",
            MadeFrom = chart,
            MadeAt = clock.GetUtcNow(),
            By = Mira,
            Standing = Standing.Trusted,
        });
        await db.SaveChangesAsync(Cancel);
    }

    public ValueTask DisposeAsync() => room.DisposeAsync();

    [Fact]
    public async Task Quiet_strips_confirm_a_profile_and_one_that_moved_makes_it_drift()
    {
        for (var i = 0; i < 3; i++)
        {
            await TakenAsync(PrinterDrift.None);
        }

        Assert.Equal((Standing.Trusted, clock.GetUtcNow()), await StandsAsync());
        var quiet = clock.GetUtcNow();
        Assert.Equal(DriftCause.AllInks, (await TakenAsync(new(AllInk: 0.06))).Verdict.Cause);
        Assert.Equal((Standing.Drifting, quiet), await StandsAsync());

        var shown = (await new ShowControl(room.Store).RunAsync(Condition, Cancel))!;
        Assert.Equal([false, false, false, true], shown.Strips.Select(s => s.Moved));
        Assert.All(shown.Strips, s => Assert.Equal(s.Moved, s.Point.Reach > 1));
        Assert.Contains(await ChecksAsync(), c => c.Profile.Number == 7 && c.Why.Contains("all inks alike", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_run_on_a_drifting_profile_stops_at_its_card_until_a_named_person_decides()
    {
        await TakenAsync(new(AllInk: 0.06));
        await using (var db = room.Store.Open())
        {
            db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A4, PackSize = 25 });
            db.Runs.Add(new()
            {
                Number = 401,
                Printer = FreshRoom.Heron,
                Paper = FreshRoom.Cotton,
                Format = FreshRoom.A4,
                Condition = Condition,
                Profile = 7,
                Black = BlackInk.Matte,
                Needs = 1,
                Layout = "{}",
            });
            await db.SaveChangesAsync(Cancel);
        }

        var start = new StartRun(room.Store, clock);
        Assert.IsType<StartRun.IsStopped>((await start.RunAsync(new(CommandId.New(), Mira, 401), Cancel)).Refusal);
        Assert.Equal([401], (await new ShowControl(room.Store).RunAsync(Condition, Cancel))!.Held);
        var decide = new GoOnWithRun(room.Store, clock);
        Assert.IsType<GoOnWithRun.SayWhy>((await decide.RunAsync(new(Mira, 401, " "), Cancel)).Refusal);
        Assert.True((await decide.RunAsync(new(Mira, 401, "a test strip of greys looks right"), Cancel)).Granted);

        await using var after = room.Store.Open();
        var decision = await after.Decisions.SingleAsync(d => d.About == "run 401", Cancel);
        Assert.Equal((Mira, "go on while profile 7 is drifting", "a test strip of greys looks right"), (decision.By, decision.What, decision.Why));
        Assert.Equal(decision.Id, (await after.Runs.SingleAsync(Cancel)).Decision);
        Assert.Empty((await new ShowControl(room.Store).RunAsync(Condition, Cancel))!.Held);
    }

    [Fact]
    public async Task The_same_file_is_one_strip_and_an_older_one_is_refused()
    {
        var hash = await KeepAsync(Read(PrinterDrift.None, Strip()));
        Assert.Equal(1, (await TakeAsync(hash)).Value!.Strip);
        Assert.Equal(1, (await TakeAsync(hash)).Value!.Strip);
        var later = await KeepAsync(Read(PrinterDrift.None, Strip()));
        Assert.IsType<TakeStrip.OutOfOrder>((await TakeAsync(later, clock.GetUtcNow().AddDays(-1))).Refusal);
        Assert.IsType<TakeStrip.OutOfOrder>((await TakeAsync(later, clock.GetUtcNow().AddDays(1))).Refusal);
    }

    [Fact]
    public async Task What_cannot_be_held_against_the_chart_changes_nothing()
    {
        var strip = Read(PrinterDrift.None, Strip());
        async Task RefusedAsync<T>(MeasurementSet set, string why)
        {
            var refusal = (await TakeAsync(await KeepAsync(set))).Refusal;
            Assert.IsType<T>(refusal);
            Assert.Contains(why, refusal!.Message, StringComparison.Ordinal);
        }

        await RefusedAsync<AnotherChart>(Read(PrinterDrift.None, [.. Strip().Select((_, i) => (double[])[0.11, 0.23, i / 31.0])]), "is it the strip of another chart?");
        await RefusedAsync<HalfAStrip>(Read(PrinterDrift.None, Strip()[..11]), "Only 11 patches were read; 12 or more are needed. Is it half a strip?");
        await RefusedAsync<OtherLight>(strip with { Condition = MCondition.M2 }, "The chart was read in M1, the strip in M2");
        await RefusedAsync<NoSpectra>(strip with { Patches = [.. strip.Patches.Select(p => p with { Spectrum = null })] }, "The strip has no spectra");
        Assert.Empty((await new ShowControl(room.Store).RunAsync(Condition, Cancel))!.Strips);
    }

    [Fact]
    public async Task A_change_of_what_must_stay_makes_a_strip_due_and_the_same_again_is_no_change()
    {
        await TakenAsync(PrinterDrift.None);
        Assert.DoesNotContain(await ChecksAsync(), c => c.Profile.Number == 7);
        clock.Advance(TimeSpan.FromHours(1));
        var note = new NoteChange(room.Store, clock);
        Assert.Equal(2, (await note.RunAsync(new(Mira, Condition, NoteChange.Part.Ink, "set B"), Cancel)).Value!.Fingerprint);
        Assert.Equal(2, (await note.RunAsync(new(Mira, Condition, NoteChange.Part.Ink, "set B"), Cancel)).Value!.Fingerprint);
        Assert.IsType<NoteChange.SayWhat>((await note.RunAsync(new(Mira, Condition, NoteChange.Part.Ink, ""), Cancel)).Refusal);
        Assert.Contains(await ChecksAsync(), c => c.IsDue && c.Why == "New ink: set B since its last check");
        Assert.Equal("New ink: set B", Assert.Single((await new ShowControl(room.Store).RunAsync(Condition, Cancel))!.Events).What);
    }

    [Fact]
    public async Task A_correction_makes_the_next_version_against_which_the_same_printer_stands_still_and_no_drift_makes_none()
    {
        var quiet = (await TakenAsync(PrinterDrift.None)).Strip;
        Assert.StartsWith("Nothing was changed.", await CorrectAsync(quiet), StringComparison.Ordinal);
        var moved = await TakenAsync(new(AllInk: 0.06));
        var told = await CorrectAsync(moved.Strip);
        Assert.Contains($"brings {moved.Verdict.Before:0.00} to {moved.Verdict.After:0.00}", told, StringComparison.Ordinal);

        await using var db = room.Store.Open();
        var next = await db.Profiles.SingleAsync(p => p.Version == 2, Cancel);
        Assert.Equal((8, Standing.New), (next.Number, next.Standing));
        Assert.Equal(1, await db.Profiles.CountAsync(p => p.Number == 7, Cancel)); // the version before is kept
        var again = (await TakeAsync(await KeepAsync(Read(new(AllInk: 0.06), Strip())), profile: 8)).Value!.Verdict;
        Assert.Equal(DriftCause.Nothing, again.Cause);
    }

    [Fact]
    public async Task A_strip_over_a_limit_of_the_room_makes_the_profile_drift_though_nothing_moved_and_the_limit_is_named()
    {
        var (change, use) = (new ChangeTolerance(room.Store, clock), new UseTolerance(room.Store, clock));
        Assert.IsType<ChangeTolerance.CannotBe>((await change.RunAsync(new(Mira, "Museum", 1, 0.5, 1, 1), Cancel)).Refusal);
        Assert.IsType<ChangeTolerance.CannotBe>((await change.RunAsync(new(Mira, " ", 1, 2, 1, 1), Cancel)).Refusal);
        Assert.IsType<ChangeTolerance.CannotBe>((await change.RunAsync(new(Mira, "Museum", 1, double.NaN, 1, 1), Cancel)).Refusal);
        Assert.True((await change.RunAsync(new(Mira, "Museum", 0.01, 5, 1, 1), Cancel)).Granted);
        Assert.IsType<UseTolerance.NoSuchSet>((await use.RunAsync(new(Mira, Condition, "Nobody's"), Cancel)).Refusal);
        Assert.True((await use.RunAsync(new(Mira, Condition, "Museum"), Cancel)).Granted);

        Assert.Equal(DriftCause.Nothing, (await TakenAsync(PrinterDrift.None)).Verdict.Cause);
        var shown = (await new ShowControl(room.Store).RunAsync(Condition, Cancel))!;
        Assert.False(shown.Strips[0].Moved);
        Assert.Equal("Museum", shown.Tolerance.Name);
        Assert.Equal(Standing.Drifting, shown.Profile!.Standing);
        Assert.Contains("all patches on average", shown.Profile.StandingWhy, StringComparison.Ordinal);

        Assert.True((await use.RunAsync(new(Mira, Condition, Room.Control.Tolerance.Usual), Cancel)).Granted);
        await TakenAsync(PrinterDrift.None);
        Assert.Equal(Standing.Trusted, (await StandsAsync()).Item1);
        var sets = await new ShowTolerances(room.Store).RunAsync(Cancel);
        Assert.Equal([("Museum", 0), ("Exacting", 0), ("Usual", 1), ("Contract proof", 0)], sets.Select(l => (l.Tolerance.Name, l.Conditions)));
        Assert.Contains("no claim", sets[^1].Tolerance.Source, StringComparison.Ordinal);
    }

    private Task<string> CorrectAsync(int strip) => new CorrectRoomProfile(room.Store, files, clock, new(clock))
        .DoNowAsync($"Correct the profile from strip {strip}", Cancel);

    private async Task<TakeStrip.Done> TakenAsync(PrinterDrift drift)
    {
        clock.Advance(TimeSpan.FromDays(7));
        return (await TakeAsync(await KeepAsync(Read(drift, Strip())))).Value!;
    }

    private Task<Outcome<TakeStrip.Done>> TakeAsync(string hash, DateTimeOffset? at = null, int profile = 7) =>
        new TakeStrip(room.Store, files, clock).RunAsync(new(Mira, hash, "strip.txt", profile, ReadAt: at), Cancel);

    private async Task<(Standing, DateTimeOffset?)> StandsAsync()
    {
        await using var db = room.Store.Open();
        var profile = await db.Profiles.SingleAsync(Cancel);
        return (profile.Standing, profile.CheckedAt);
    }

    private async Task<IReadOnlyList<StripsDue.Line>> ChecksAsync() => (await new ShowToday(room.Store, clock).RunAsync(Cancel)).Checks;

    private async Task<string> KeepAsync(MeasurementSet set)
    {
        using var text = new MemoryStream(Encoding.UTF8.GetBytes(CgatsWriter.Write(set, "invented", "strip")));
        return (await files.KeepAsync(text, Cancel)).Hash;
    }

    private MeasurementSet Read(PrinterDrift drift, double[][] device) =>
        InventedPrinter.Read(InventedPrinter.On(new() { Surface = 0.02 }, pigment: true, drift: drift), device, seed++);

    private static double[][] Chart() =>
        [.. from r in Enumerable.Range(0, 5) from g in Enumerable.Range(0, 5) from b in Enumerable.Range(0, 5) select (double[])[r / 4.0, g / 4.0, b / 4.0]];

    private static double[][] Strip() =>
    [
        [1, 1, 1], [0, 1, 1], [1, 0, 1], [1, 1, 0], [0, 0, 1], [0, 1, 0], [1, 0, 0], [0, 0, 0],
        .. from channel in Enumerable.Range(0, 3) from value in (double[])[0.25, 0.5, 0.75] select One(channel, value),
        .. ((double[])[0.25, 0.5, 0.75]).Select(v => (double[])[v, v, v]), [0.5, 0.5, 1], [0.5, 1, 0.5], [1, 0.5, 0.5], [0.25, 0.5, 0.75],
    ];

    private static double[] One(int channel, double value)
    {
        double[] device = [1, 1, 1];
        device[channel] = value;
        return device;
    }
}

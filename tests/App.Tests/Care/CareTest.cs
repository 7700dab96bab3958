using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Care;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Tests.Care;

/// <summary>A room with one printer, on a Monday at nine.</summary>
public sealed class CareTest(PostgresServer postgres)
{
    private static readonly PersonName Mira = new("Mira");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static TheoryData<RoomStore.Kind> BothStores => FreshRoom.BothStores;

    [Fact]
    public async Task The_usual_rounds_are_taken_up_once_and_due_until_ticked()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        Assert.Equal(5, (await new TakeUsualCare(room.Store).RunAsync(Cancel)).Value!.Added);
        Assert.Equal(0, (await new TakeUsualCare(room.Store).RunAsync(Cancel)).Value!.Added);
        var nozzles = (await Care(room)).Due.Single(t => t.Name == "Nozzle check");

        var left = await Tick(room, nozzles.Number, 0b011, "");
        Assert.Equal(["Only an ink that has a gap cleaned, and checked again."], Assert.IsType<TickTask.StepsLeft>(left.Refusal).Steps);
        var command = CommandId.New();
        Assert.True((await Tick(room, nozzles.Number, 0b011, "no gap", command)).Granted);
        Assert.True((await Tick(room, nozzles.Number, 0b011, "no gap", command)).Granted); // a second post of the same form
        Assert.IsType<CommandUsedOtherwise>((await Tick(room, nozzles.Number, 0b111, "", command)).Refusal);

        Assert.DoesNotContain((await Care(room)).Due, t => t.Number == nozzles.Number);
        clock.Advance(TimeSpan.FromDays(1));
        Assert.Contains((await Care(room)).Due, t => t.Number == nozzles.Number);
        await using var db = room.Store.Open();
        Assert.Equal("Left out: Only an ink that has a gap cleaned, and checked again. no gap", (await db.CareDone.SingleAsync(Cancel)).Note);
    }

    [Fact]
    public async Task Waste_stands_beside_the_care_that_was_missed_and_the_air_of_its_day()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        await new TakeUsualCare(room.Store).RunAsync(Cancel);
        var brush = (await Care(room)).Due.Single(t => t.Name == "Brush the art papers");
        Assert.True((await Tick(room, brush.Number, 0b111, "")).Granted);
        var lot = (await new PutAway(room.Store, clock).RunAsync(new(CommandId.New(), Mira, FreshRoom.Cotton, FreshRoom.A4, 20, null), Cancel)).Value!.Lot;

        clock.Advance(TimeSpan.FromDays(1));
        await Spoil(room, lot, WasteCause.Dust);
        Assert.Empty((await Care(room)).Explained); // brushing was due that very day

        clock.Advance(TimeSpan.FromDays(1));
        await Spoil(room, lot, WasteCause.Dust);
        await Spoil(room, lot, WasteCause.Colour);
        var dust = Assert.Single((await Care(room)).Explained);
        Assert.Equal((WasteCause.Dust, new DateOnly(2026, 3, 3)), (dust.Cause, dust.Lapses.Single().Due));
        Assert.Null(dust.Air);

        Assert.False((await new NoteAir(room.Store, clock).RunAsync(new(CommandId.New(), Mira, 21, 28), Cancel)).Value!.HumidityHolds);
        Assert.Equal(28, (await Care(room)).Explained.Single().Air?.Humidity);
        Assert.IsType<NoteAir.CannotBe>((await new NoteAir(room.Store, clock).RunAsync(new(CommandId.New(), Mira, 70, 28), Cancel)).Refusal);
    }

    [Theory]
    [MemberData(nameof(BothStores))]
    public async Task A_loggers_file_is_taken_in_once_and_never_overwrites_what_is_here(RoomStore.Kind kind)
    {
        await using var room = await FreshRoom.OnAsync(kind, postgres);
        const string Csv = "time,temp c,rh\n2026-03-02 08:00,20,48\n2026-03-02 08:10,20,49\n2026-03-02 08:20,20,50\n";
        var air = new ImportAir(room.Store);
        Assert.Equal(3, (await air.RunAsync(new(Csv, new(), DryRun: true), Cancel)).Value!.Fresh);
        Assert.Equal(3, (await air.RunAsync(new(Csv, new()), Cancel)).Value!.Fresh);
        var again = (await air.RunAsync(new(Csv.Replace(",49", ",55", StringComparison.Ordinal) + "2026-03-02 08:30,20,51\n", new()), Cancel)).Value!;
        Assert.Equal((1, 4), (again.Fresh, again.Read));
        Assert.Collection(again.Findings, f => Assert.Contains("2 readings are here already", f), f => Assert.Contains("what is here stands", f));
        await using var db = room.Store.Open();
        Assert.Equal([48.0, 49, 50, 51], await db.Climate.OrderBy(c => c.At).Select(c => c.Humidity).ToListAsync(Cancel));
    }

    [Fact]
    public async Task A_loggers_file_in_Fahrenheit_and_with_a_gap_is_taken_in_with_both_said_and_one_without_a_unit_is_not_guessed()
    {
        await using var room = await FreshRoom.InFileAsync();
        var air = new ImportAir(room.Store);
        var done = (await air.RunAsync(new("time,temp F,rh\n2026-03-02 08:00,68,48\n2026-03-02 08:10,68,48\n2026-03-02 08:20,68,48\n2026-03-02 14:00,77,48\n", new()), Cancel)).Value!;
        Assert.Equal((4, 1), (done.Fresh, done.Gaps));
        Assert.Contains(done.Findings, f => f.Contains("°F", StringComparison.Ordinal));
        Assert.Contains(done.Findings, f => f.Contains("14:00", StringComparison.Ordinal));
        Assert.Contains("Say whether it is Fahrenheit", (await air.RunAsync(new("time,temp,rh\n2026-03-03 08:00,68,48\n2026-03-03 08:10,70,48\n", new()), Cancel)).Refusal!.Message, StringComparison.Ordinal);
        await using var db = room.Store.Open();
        Assert.Equal([20.0, 20, 20, 25], await db.Climate.OrderBy(c => c.At).Select(c => c.Temperature).ToListAsync(Cancel));
    }

    [Fact]
    public async Task A_box_that_stands_open_longer_than_the_room_wishes_is_named_and_the_band_is_the_rooms_own()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var lot = (await new PutAway(room.Store, clock).RunAsync(new(CommandId.New(), Mira, FreshRoom.Cotton, FreshRoom.A4, 20, null), Cancel)).Value!.Lot;
        await new DrawPaper(room.Store, clock).RunAsync(new(CommandId.New(), Mira, lot, 2, FreshRoom.Heron), Cancel);
        var bands = new SetCareBands(room.Store);
        Assert.IsType<SetCareBands.CannotBe>((await bands.RunAsync(new(25, 18, 40, 60, 30, ""), Cancel)).Refusal);
        Assert.True((await bands.RunAsync(new(18, 25, 40, 60, 30, ""), Cancel)).Granted);
        Assert.Equal(Room.Care.CareBands.NoSource, (await bands.ShowAsync(Cancel)).Source);
        clock.Advance(TimeSpan.FromDays(30));
        Assert.Empty((await Care(room)).Open);
        clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal((lot, 31), (await Care(room)).Open.Select(b => (b.Lot.Code, b.Days)).Single());
    }

    private Task<ShowCare.Page> Care(FreshRoom room) => new ShowCare(room.Store, clock).RunAsync(Cancel);

    private Task<Outcome<TickTask.Done>> Tick(FreshRoom room, int task, long ticked, string note, CommandId? command = null) =>
        new TickTask(room.Store, clock).RunAsync(new(command ?? CommandId.New(), Mira, task, ticked, note), Cancel);

    private async Task Spoil(FreshRoom room, LotCode lot, WasteCause cause) =>
        Assert.True((await new SpoilPaper(room.Store, clock).RunAsync(new(CommandId.New(), Mira, lot, 1, cause), Cancel)).Granted);
}

using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Layout;
using Goodsheet.App.Plan;
using Goodsheet.App.Storage;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Plan;

/// <summary>The plan of a room with one printer, a matte cotton and a pearl, on a Monday at nine.</summary>
public sealed class PlanDayTest
{
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_order_on_no_run_yet_is_planned_and_a_promise_is_tried_without_changing_anything()
    {
        await using var room = await WithOrdersAsync();
        var day = (await new ShowPlan(room.Store, clock).RunAsync(Cancel)).Value!;
        var slots = day.Lanes.Single().Slots;
        Assert.Equal(["order 2001", "order 2002", "order 2003"], slots.Select(s => s.Key).Order());
        Assert.Equal(1, day.BlackChanges);

        var fits = (await new TryPromise(room.Store, clock).RunAsync(new("order 2003", new(17, 0)), Cancel)).Value!;
        var not = (await new TryPromise(room.Store, clock).RunAsync(new("order 2003", new(9, 5)), Cancel)).Value!;
        Assert.True(fits.Fits);
        Assert.False(not.Fits);
        Assert.IsType<TryPromise.NothingSoCalled>((await new TryPromise(room.Store, clock).RunAsync(new("order 9", new(9, 5)), Cancel)).Refusal);
    }

    [Fact]
    public async Task Planning_again_writes_when_each_run_begins_and_leaves_what_is_printing()
    {
        await using var room = await WithOrdersAsync();
        await using (var db = room.Store.Open())
        {
            db.Runs.Add(await RunAsync(db, 401, RunState.Printing, clock.GetUtcNow().AddMinutes(-10)));
            db.Runs.Add(await RunAsync(db, 402, RunState.Planned, null));
            db.RunPrints.Add(new() { Run = 401, Order = 2001, Line = 1, Copies = 2 });
            db.RunPrints.Add(new() { Run = 402, Order = 2002, Line = 1, Copies = 2 });
            await db.SaveChangesAsync(Cancel);
        }

        var day = (await new PlanDay(room.Store, clock).RunAsync(Cancel)).Value!;
        var first = day.Lanes.Single().Slots[0];
        Assert.Equal(("401", true, clock.GetUtcNow().AddMinutes(-10)), (first.Key, first.Began, first.Begins));
        Assert.Equal((2, first.Ends.AddHours(1), new DateTimeOffset(2026, 3, 2, 12, 0, 0, TimeSpan.Zero), 0), (first.Prints, first.Dry, first.Promised!.Value, first.LateMinutes)); // the paper dries an hour
        Assert.Equal([2003], day.Lanes.Single().Slots.Select(s => s.Order).OfType<int>());
        await using var after = room.Store.Open();
        var run = await after.Runs.SingleAsync(r => r.Number == 402, Cancel);
        Assert.True(run.PlannedAt >= first.Ends && run.PlannedMinutes > 0);
        Assert.Equal(RunState.Printing, (await after.Runs.SingleAsync(r => r.Number == 401, Cancel)).State);
    }

    [Fact]
    public async Task A_run_that_is_printing_and_will_not_be_dry_in_time_is_said_to_be_late()
    {
        await using var room = await WithOrdersAsync();
        await using (var db = room.Store.Open())
        {
            db.Runs.Add(await RunAsync(db, 401, RunState.Printing, clock.GetUtcNow()));
            db.RunPrints.Add(new() { Run = 401, Order = 2001, Line = 1, Copies = 2 });
            (await db.Orders.SingleAsync(o => o.Number == 2001, Cancel)).Promised = clock.GetUtcNow().AddMinutes(30); // and the paper dries an hour
            await db.SaveChangesAsync(Cancel);
        }

        var day = (await new ShowPlan(room.Store, clock).RunAsync(Cancel)).Value!;
        Assert.InRange(day.Lanes.Single().Slots[0].LateMinutes, 31, 90);
        Assert.StartsWith("One run will be late, printing now.", day.Verdict, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_paper_fed_by_hand_rests_when_the_room_closes_but_prints_on_from_a_roll(bool fromRoll)
    {
        clock.SetUtcNow(new(2026, 3, 2, 17, 0, 0, TimeSpan.Zero));
        await using var room = await WithOrdersAsync();
        await using (var db = room.Store.Open())
        {
            if (fromRoll)
            {
                db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.Roll, PackSize = 15_000 });
            }

            var run = await RunAsync(db, 402, RunState.Planned, null, fromRoll ? FreshRoom.Roll : null);
            run.Needs = fromRoll ? 5_000 : 20;
            db.Runs.Add(run);
            db.RunPrints.Add(new() { Run = 402, Order = 2002, Line = 1, Copies = 20 });
            await db.Orders.Where(o => o.Number != 2002).ExecuteUpdateAsync(o => o.SetProperty(x => x.State, OrderState.OnHold), Cancel);
            await db.SaveChangesAsync(Cancel);
        }

        var slot = Assert.Single((await new ShowPlan(room.Store, clock).RunAsync(Cancel)).Value!.Lanes.Single().Slots);
        Assert.Equal(fromRoll ? 2 : 3, slot.Ends.Day);
        Assert.True(slot.Ends.Hour is >= 18 or < 12);
    }

    [Fact]
    public async Task What_follows_one_another_on_the_same_paper_is_said_in_one_sentence()
    {
        await using var room = await WithOrdersAsync();
        var day = (await new ShowPlan(room.Store, clock).RunAsync(Cancel)).Value!;
        var runs = day.Lanes.Single().Slots.Select(s => s.Key).ToList(); // in whatever order
        Assert.Equal(
            $"O{runs[0][1..]}, {runs[1]} and {runs[2]} follow one another on Heron: all are Test Cotton 300, which saves 8 minutes of changing paper.",
            Assert.Single(day.Why, w => w.Contains("changing paper", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_test_strip_that_an_order_asks_for_is_work_of_its_own_before_the_print()
    {
        await using var room = await WithOrdersAsync();
        Assert.True((await new SayHowLaid(room.Store, clock).RunAsync(new(new("Mira"), 2001, 1, true, false, StripFirst: true), Cancel)).Granted);
        var day = (await new PlanDay(room.Store, clock).RunAsync(Cancel)).Value!;
        var slots = day.Lanes.Single().Slots;
        Assert.Equal(["order 2001", "order 2002", "order 2003", "strip of order 2001"], slots.Select(s => s.Key).Order());
        var (strip, print) = (slots.Single(s => s.Strip is not null), slots.Single(s => s.Key == "order 2001"));
        Assert.Equal((StripWait.ToMake, strip.Paper, true), (strip.Strip!.Wait, print.Paper, print.WaitsForStrip));
        Assert.True(print.Begins >= strip.Ends.AddMinutes(new PlanSettings().MinutesPerStrip) && strip.Ends > strip.Begins);
        Assert.Contains(day.Why, w => w.StartsWith("Order 2001 begins when its test strip", StringComparison.Ordinal));
        Assert.IsType<TryPromise.NothingSoCalled>((await new TryPromise(room.Store, clock).RunAsync(new("strip of order 2001", new(17, 0)), Cancel)).Refusal);

        await using (var db = room.Store.Open())
        {
            db.TestStrips.Add(new()
            {
                Order = 2001,
                Line = 1,
                Number = 1,
                X = default,
                Y = default,
                Width = TestStrip.UsualWidth,
                Height = TestStrip.UsualHeight,
                Place = PlaceKind.Chosen,
                Profile = 1,
                Recipe = "",
                FileHash = "1",
                At = clock.GetUtcNow(),
                By = new("Mira"),
                PrintedAt = clock.GetUtcNow(),
            });
            await db.SaveChangesAsync(Cancel);
        }

        // Printed: what is left of the plan is that somebody looks at it.
        var printed = (await new ShowPlan(room.Store, clock).RunAsync(Cancel)).Value!.Lanes.Single().Slots;
        Assert.DoesNotContain(printed, s => s.Strip is not null);
        Assert.True(printed.Single(s => s.Key == "order 2001").Begins >= clock.GetUtcNow().AddMinutes(new PlanSettings().MinutesPerStrip));
    }

    [Fact]
    public async Task A_room_without_a_printer_is_told_so()
    {
        await using var room = await FreshRoom.InFileAsync();
        Assert.IsType<DayPlanner.NoPrinter>((await new ShowPlan(room.Store, clock).RunAsync(Cancel)).Refusal);
    }

    private static async Task<Run> RunAsync(RoomDb db, int number, RunState state, DateTimeOffset? began, FormatCode? format = null)
    {
        var condition = await db.Conditions.FirstAsync(c => c.Paper == FreshRoom.Cotton, Cancel);
        return new()
        {
            Number = number,
            Printer = FreshRoom.Heron,
            Paper = FreshRoom.Cotton,
            Format = format ?? FreshRoom.A2,
            Condition = condition.Code,
            Profile = 1,
            Black = BlackInk.Matte,
            State = state,
            BeganAt = began,
            Needs = 2,
            Layout = "{}",
        };
    }

    private async Task<FreshRoom> WithOrdersAsync()
    {
        var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        await using var db = room.Store.Open();
        var printer = await db.Printers.SingleAsync(Cancel);
        (printer.MinutesToMatte, printer.MlToMatte, printer.MinutesToPhoto, printer.MlToPhoto) = (6, 4, 8, 5);
        db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A2, PackSize = 25 });
        db.Conditions.Add(new() { Code = new("heron-cotton"), Printer = FreshRoom.Heron, Paper = FreshRoom.Cotton, MediaSetting = "Art", Ppi = 360, Black = BlackInk.Matte });
        db.Profiles.Add(new()
        {
            Number = 1,
            Name = "Cotton",
            Condition = new("heron-cotton"),
            Version = 1,
            FileHash = "0",
            MadeAt = clock.GetUtcNow(),
            By = new("Mira"),
            Standing = Room.Profiles.Standing.Trusted,
        });
        db.Clients.Add(new() { Number = 1, Name = "An invented gallery" });
        foreach (var (number, promised) in new[] { (2001, 12), (2002, 14), (2003, 16) })
        {
            db.Orders.Add(new() { Number = number, Client = 1, TakenAt = clock.GetUtcNow(), TakenBy = new("Mira"), Promised = new(2026, 3, 2, promised, 0, 0, TimeSpan.Zero), State = OrderState.Approved });
            db.PrintLines.Add(new()
            {
                Order = number,
                Line = 1,
                Title = $"Picture {number}",
                ImageHash = "0",
                ImageName = "a.tif",
                PixelsWide = 100,
                PixelsHigh = 100,
                Width = Length.FromMillimetres(380),
                Height = Length.FromMillimetres(253),
                Paper = FreshRoom.Cotton,
                Copies = 2,
            });
        }

        await db.SaveChangesAsync(Cancel);
        return room;
    }
}

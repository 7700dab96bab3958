using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.Room.Tests.Runs;

public class DayPlannerTest
{
    private static readonly bool Slow = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1"; // 3.6 million orders each

    private const long Tries = 30_000;
    private const double Rounding = 1e-6;

    [Theory]
    [InlineData(5, 1)]
    [InlineData(6, 2)]
    [InlineData(6, 3)]
    public void A_small_day_is_planned_as_well_as_trying_every_order(int runs, int seed)
    {
        var work = InventedDay.Of(runs, 2, seed);
        Assert.Equal(EveryOrder.Least(work), DayPlanner.Plan(work, null, 1, t => t >= Tries).Value!.Cost, Rounding);
    }

    [Fact]
    public void A_day_on_two_printers_is_planned_as_well_as_trying_every_order_up_to_nine_runs_when_there_is_time()
    {
        for (var seed = 4; seed <= 6; seed++)
        {
            var work = InventedDay.Of(Slow ? 9 : 6, 2, seed);
            Assert.Equal(EveryOrder.Least(work), DayPlanner.Plan(work, null, 1, t => t >= 10 * Tries).Value!.Cost, Rounding);
        }
    }

    [Fact]
    public void A_plan_holds_its_rules()
    {
        for (var seed = 1; seed <= 10; seed++)
        {
            var work = InventedDay.Of(30, 3, seed);
            var plan = DayPlanner.Plan(work, null, seed, t => t >= 3_000).Value!;
            Assert.Empty(PlanVerifier.Faults(plan));
        }
    }

    [Fact]
    public void A_plan_at_hand_is_left_alone_when_nothing_has_changed_and_new_work_is_fitted_in()
    {
        var work = InventedDay.Of(20, 2, 4);
        var plan = DayPlanner.Plan(work, null, 1, t => t >= Tries).Value!;
        var again = DayPlanner.Plan(work, plan.Order, 2, t => t >= 3_000).Value!;
        Assert.True(again.Cost <= plan.Cost);
        Assert.True(again.Order.Zip(plan.Order).All(l => l.First.SequenceEqual(l.Second)) || plan.Cost - again.Cost >= work.Rules.Prices.WorthMoving);
        var more = work with { Runs = [.. work.Runs, work.Runs[0] with { Key = "999", Due = 100 }] };
        Assert.Equal(21, DayPlanner.Plan(more, plan.Order, 1, _ => true).Value!.Slots.Count());
    }

    [Fact]
    public void A_black_change_says_what_waiting_with_it_would_bring()
    {
        var printer = new PrinterDay("Heron", 0, BlackInk.Photo, "pearl", 8, 5, 6, 4, 3);
        RunToPlan Run(string key, string paper, BlackInk black, double due) => new(key, paper, black, Feed.Stack, [50.0], 0, due, 5, 0, 1);
        var work = new DayWork([printer], [Run("412", "cotton", BlackInk.Matte, 70), Run("415", "cotton", BlackInk.Matte, 120), Run("414", "pearl", BlackInk.Photo, 400)], new([], 1, 0, [], new(0.5, 0.4, 0.001, 1)));
        var plan = DayPlanner.Plan(work, null, 1, t => t >= 2_000).Value!;
        Assert.Equal(0, plan.LateRuns);
        var reasons = PlanReasons.Of(plan).OfType<BlackChangeReason>().ToArray();
        Assert.Equal(2, reasons.Length);
        Assert.Equal((2, 2, -1, -5.0), (reasons[0].Serves, reasons[0].Else!.LateRuns, reasons[0].Else!.BlackChanges, reasons[0].Else!.Ml));
        Assert.Null(reasons[1].Else);
        Assert.Contains(PlanReasons.Of(plan), r => r is SamePaperReason { MinutesSaved: 3 });
    }

    [Fact]
    public void A_print_waits_until_its_test_strip_was_looked_at_and_other_work_goes_between()
    {
        var printer = new PrinterDay("Heron", 0, BlackInk.Photo, "baryta", 8, 5, 6, 4, 3);
        RunToPlan Run(string key, double minutes) => new(key, "baryta", BlackInk.Photo, Feed.Stack, [minutes], 0, 400, 1, 0, 1);
        var work = new DayWork(
            [printer], [Run("402", 60) with { After = [2], AfterMinutes = 20 }, Run("403", 15), Run("strip of 402", 3)], new([], 1, 0, [], new(0.5, 0.4, 0.001, 1)));
        var plan = DayPlanner.Plan(work, [[0]], 1, t => t >= 2_000).Value!;
        Assert.Equal([2, 1, 0], plan.Order[0]);
        Assert.Equal((0, 3, 23), (plan.Lanes[0][0].Begins, plan.Lanes[0][1].Begins, plan.Lanes[0][2].Begins));
        var reason = Assert.Single(PlanReasons.Of(plan).OfType<StripReason>());
        Assert.Equal((0, 2), (reason.Slot.Run, reason.Strip.Run));

        // Looked at by somebody who is there: not at night, though a stack prints on alone.
        var late = DayPlanner.Timed(work with { Rules = work.Rules with { Hours = [(0, 10), (600, 700)] } }, [[2, 1, 0]]);
        Assert.Equal(600, late.Lanes[0][2].Begins);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void A_small_day_with_test_strips_is_planned_as_well_as_trying_every_order(int seed)
    {
        var work = InventedDay.WithStrips(InventedDay.Of(4, 2, seed), 2);
        var plan = DayPlanner.Plan(work, null, 1, t => t >= Tries).Value!;
        Assert.Equal(EveryOrder.Least(work), plan.Cost, Rounding);
        Assert.Empty(PlanVerifier.Faults(plan));
    }

    [Fact]
    public void A_day_with_test_strips_holds_its_rules_and_is_explained()
    {
        for (var seed = 1; seed <= 6; seed++)
        {
            var work = InventedDay.WithStrips(InventedDay.Of(20, 3, seed), 6);
            var plan = DayPlanner.Plan(work, null, seed, t => t >= 3_000).Value!;
            Assert.Empty(PlanVerifier.Faults(plan));
            Assert.Equal(6, PlanReasons.Of(plan).OfType<StripReason>().Count());
            var again = DayPlanner.Plan(work, [.. plan.Order.Select(l => l.Where(r => r < 20).ToArray())], seed, _ => true).Value!; // the strips are found new
            Assert.Empty(PlanVerifier.Faults(again));
        }
    }

    [Fact]
    public void Printers_that_wait_for_one_another_s_strips_for_ever_are_no_plan()
    {
        var work = InventedDay.WithStrips(InventedDay.Of(2, 2, 1), 2);
        work = work with { Runs = [.. work.Runs.Select(r => r with { MinutesOn = [5.0, 5.0] })] };
        Assert.Equal(double.PositiveInfinity, DayPlanner.Timed(work, [[0, 3], [1, 2]]).Cost);
        Assert.True(double.IsFinite(DayPlanner.Timed(work, [[2, 0], [3, 1]]).Cost));
    }

    [Fact]
    public void Work_by_hand_rests_while_the_room_is_closed_and_a_stack_goes_on()
    {
        var work = InventedDay.Of(1, 1, 1);
        var rules = work.Rules with { Hours = [(0, 60), (600, 660)], Drying = [] };
        RunToPlan Run(Feed feed) => new("1", "p", BlackInk.Photo, feed, [90.0], 0, 1e9, 1, 0, 0);
        var printer = new PrinterDay("Heron", 0, BlackInk.Photo, "p", 8, 5, 6, 4, 3);
        Assert.Equal(90, DayPlanner.Timed(new([printer], [Run(Feed.Stack)], rules), [[0]]).Slots.Single().Ends);
        Assert.Equal(630, DayPlanner.Timed(new([printer], [Run(Feed.OneByOne)], rules), [[0]]).Slots.Single().Ends);
    }

    [Fact]
    public void Work_no_printer_takes_is_refused_by_name()
    {
        var work = InventedDay.Of(3, 2, 1);
        work = work with { Runs = [work.Runs[0] with { MinutesOn = [null, null] }] };
        Assert.IsType<DayPlanner.NobodyPrintsIt>(DayPlanner.Plan(work, null, 1, _ => true).Refusal);
    }
}

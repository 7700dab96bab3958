using Goodsheet.Room.Runs;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Room.Tests.Runs;

public class OrderSearchTest
{
    private const long Tries = 100_000;

    // An invented instance in the published form, so that the test needs no file beside the project.
    private static OneMachine Invented(int jobs, int seed)
    {
        var random = new Random(seed);
        var lines = new List<string> { $"Problem Size: {jobs}", "Process Times:" };
        lines.AddRange(Enumerable.Range(0, jobs).Select(_ => $"{random.Next(50, 150)}"));
        lines.Add("Weights:");
        lines.AddRange(Enumerable.Range(0, jobs).Select(_ => $"{random.Next(11)}"));
        lines.Add("Duedates:");
        lines.AddRange(Enumerable.Range(0, jobs).Select(_ => $"{random.Next(50 * jobs)}"));
        lines.Add("Setup Times:");
        lines.AddRange(Enumerable.Range(-1, jobs + 1).SelectMany(i => Enumerable.Range(0, jobs).Select(j => $"{i}\t{j}\t{random.Next(50)}")));
        return OneMachine.Of(lines);
    }

    [Fact]
    public void Few_jobs_are_put_in_the_best_order_there_is()
    {
        for (var seed = 1; seed <= 5; seed++)
        {
            var machine = Invented(7, seed);
            var search = new OrderSearch<OneMachine>(machine, seed);
            search.Run(0, tried => tried >= Tries);
            Assert.Equal(machine.LeastOfAll(), search.Best);
            Assert.Equal(machine.Plainly(), search.Best);
        }
    }

    [Fact]
    public void More_exchanges_are_never_worse_and_the_same_seed_finds_the_same()
    {
        var costs = ((long[])[0, 10_000, 10_000, Tries]).Select(most =>
        {
            var machine = Invented(40, 3);
            new OrderSearch<OneMachine>(machine, 1).Run(0, tried => tried >= most);
            return machine.Plainly();
        }).ToArray();
        Assert.True(costs[0] >= costs[1] && costs[1] >= costs[3], string.Join(' ', costs));
        Assert.Equal(costs[1], costs[2]);
    }

    [Fact]
    public void The_quick_counts_of_an_exchange_are_the_plain_counts()
    {
        var machine = Invented(33, 5);
        var random = new Random(1);
        for (var i = 0; i < 2_000; i++)
        {
            var cuts = Enumerable.Range(0, 4).Select(_ => random.Next(34)).Order().ToArray();
            var exchange = new Exchange(0, cuts[0], cuts[1] - cuts[0], 0, cuts[2], cuts[3] - cuts[2]);
            var told = machine.CostAfter(exchange, double.PositiveInfinity);
            var (more, before) = (machine.MoreChanging(exchange), machine.PlainSetups());
            machine.Make(exchange);
            Assert.Equal(machine.PlainSetups() - before, more);
            Assert.Equal(machine.Plainly(), told);
            Assert.Equal(machine.Cost, told);
        }
    }
}

using Goodsheet.Room.Papers;

namespace Goodsheet.Room.Tests.Papers;

public class SmallestLineUpTest
{
    [Fact]
    public void Costs_as_little_as_the_best_of_all_subsets_up_to_16_papers()
    {
        var random = new Random(20260318);
        for (var round = 0; round < 300; round++)
        {
            var (papers, works) = (random.Next(1, 17), random.Next(1, 25));
            var dense = 0.1 + (0.5 * random.NextDouble());
            bool[][] takes = [.. Enumerable.Range(0, papers).Select(_ => Enumerable.Range(0, works).Select(_ => random.NextDouble() < dense).ToArray())];
            long[] cost = [.. Enumerable.Range(0, papers).Select(_ => (long)random.Next(1, round % 2 == 0 ? 2 : 50))];
            var found = SmallestLineUp.Find(takes, cost);
            Assert.Equal(BruteForce(takes, cost), found?.Sum(p => cost[p]));
            Assert.True(found is null || Enumerable.Range(0, works).All(w => found.Any(p => takes[p][w])), $"round {round}");
        }
    }

    [Fact]
    public void Needs_no_paper_for_no_work_and_none_serves_where_a_work_cannot_be_taken()
    {
        Assert.Empty(SmallestLineUp.Find([], [])!);
        Assert.Empty(SmallestLineUp.Find([[], []], [1, 1])!);
        Assert.Null(SmallestLineUp.Find([[true, false], [true, false]], [1, 1]));
    }

    [Fact]
    public void Sixty_four_papers_are_searched_and_sixty_five_refused()
    {
        bool[][] each = [.. Enumerable.Range(0, 64).Select(p => Enumerable.Range(0, 64).Select(w => w == p || w == (p + 1) % 64).ToArray())];
        Assert.Equal(32, SmallestLineUp.Find(each, [.. Enumerable.Repeat(1L, 64)])!.Count);
        Assert.Throws<ArgumentOutOfRangeException>(() => SmallestLineUp.Find([.. each, each[0]], [.. Enumerable.Repeat(1L, 65)]));
    }

    private static long? BruteForce(bool[][] takes, long[] cost)
    {
        long? least = null;
        for (var set = 0; set < 1 << takes.Length; set++)
        {
            var members = Enumerable.Range(0, takes.Length).Where(p => (set & (1 << p)) != 0).ToArray();
            if (Enumerable.Range(0, takes[0].Length).All(w => members.Any(p => takes[p][w])))
            {
                least = Math.Min(least ?? long.MaxValue, members.Sum(p => cost[p]));
            }
        }

        return least;
    }
}

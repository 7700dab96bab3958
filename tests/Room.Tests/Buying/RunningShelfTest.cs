using CsCheck;
using Goodsheet.Room.Buying;

namespace Goodsheet.Room.Tests.Buying;

public class RunningShelfTest
{
    /// <summary>Half a cent.</summary>
    private const double HalfACent = 0.005;

    /// <summary>Law, Simulation Modeling and Analysis, 1.5: all nine policies, one after the other from one stream of numbers.</summary>
    [Fact]
    public void Nine_published_policies_cost_what_the_textbook_prints()
    {
        (int Least, int UpTo, double Total, double Ordering, double Holding, double Short)[] printed =
        [
            (20, 40, 126.61, 99.26, 9.25, 18.10), (20, 60, 122.74, 90.52, 17.39, 14.83), (20, 80, 123.86, 87.36, 26.24, 10.26),
            (20, 100, 125.32, 81.37, 36.00, 7.95), (40, 60, 126.37, 98.42, 25.99, 1.95), (40, 80, 125.46, 88.40, 35.92, 1.14),
            (40, 100, 132.34, 84.62, 46.42, 1.30), (60, 80, 150.02, 105.69, 44.02, 0.31), (60, 100, 143.20, 89.05, 53.91, 0.24),
        ];
        var numbers = new LawsNumbers();
        foreach (var row in printed)
        {
            var (ordering, holding, missing) = Months120(row.Least, row.UpTo, numbers);
            Assert.Equal(row.Ordering, ordering, HalfACent);
            Assert.Equal(row.Holding, holding, HalfACent);
            Assert.Equal(row.Short, missing, HalfACent);
            Assert.Equal(row.Total, ordering + holding + missing, HalfACent);
        }
    }

    [Fact]
    public void What_is_owed_is_given_first_and_what_expires_first_goes_first()
    {
        var shelf = new RunningShelf();
        shelf.Put(4, 10);
        shelf.Put(6, 5);
        shelf.Take(7);
        Assert.Equal([(3, 10.0)], shelf.Lots);
        shelf.Take(5);
        Assert.Equal((0, 2, 10), (shelf.OnShelf, shelf.Owed, shelf.GivenAtOnce));
        shelf.Order(5, comes: 2, until: 8);
        shelf.AdvanceTo(2);
        Assert.Equal((3, 0, 0), (shelf.OnShelf, shelf.Owed, shelf.OnTheWay));
        shelf.AdvanceTo(8);
        Assert.Equal((0, 3, 18.0, 4.0), (shelf.OnShelf, shelf.Outdated, shelf.Held, shelf.Awaited));
    }

    [Fact]
    public void No_sheet_is_lost_or_made_whatever_happens() =>
        Gen.Select(Gen.Int[0, 20], Gen.Int[0, 20], Gen.Int[0, 5], Gen.Int[1, 30]).Array[1, 60].Sample(steps =>
        {
            var shelf = new RunningShelf();
            long bought = 0;
            foreach (var (order, take, lead, life) in steps)
            {
                shelf.Order(order, shelf.Now + lead, shelf.Now + lead + life);
                bought += order;
                shelf.AdvanceTo(shelf.Now + 1);
                shelf.Take(take);
                Assert.Equal(bought, shelf.OnTheWay + shelf.OnShelf + shelf.Outdated + shelf.Wanted - shelf.Owed);
                Assert.True(shelf.OnShelf == 0 || shelf.Owed == 0);
                Assert.Equal(shelf.OnShelf, shelf.Lots.Sum(l => l.Left));
            }
        });

    /// <summary>K 32, 3 for one, holding 1 and missing 5 for one in a month; months from one order chance to the next, half to one of lead.</summary>
    private static (double Ordering, double Holding, double Short) Months120(int least, int upTo, LawsNumbers numbers)
    {
        const double Months = 120;
        var shelf = new RunningShelf();
        shelf.Put(60, double.PositiveInfinity);
        var (ordering, review, demand) = (0.0, 0.0, numbers.Wait(0.1));
        while (Math.Min(review, demand) < Months)
        {
            if (review < demand)
            {
                shelf.AdvanceTo(review);
                var level = shelf.OnShelf - shelf.Owed;
                if (level < least)
                {
                    ordering += 32 + (3 * (upTo - level));
                    shelf.Order(upTo - level, review + 0.5 + (0.5 * numbers.Next()), double.PositiveInfinity);
                }

                review++;
            }
            else
            {
                shelf.AdvanceTo(demand);
                shelf.Take(numbers.Size());
                demand += numbers.Wait(0.1);
            }
        }

        shelf.AdvanceTo(Months);
        return (ordering / Months, shelf.Held / Months, 5 * shelf.Awaited / Months);
    }

    /// <summary>The textbook's generator (Marse, Roberts 1983): multiplier 630360016, modulus 2^31 − 1, first seed 1973272912.</summary>
    private sealed class LawsNumbers
    {
        private static readonly double[] Sizes = [0.167, 0.5, 0.833, 1];
        private long state = 1_973_272_912;

        public double Next()
        {
            state = state * 630_360_016 % int.MaxValue;
            return ((state >> 7) | 1) / 16_777_216.0;
        }

        public double Wait(double mean) => -mean * Math.Log(Next());

        public int Size()
        {
            var u = Next();
            return Array.FindIndex(Sizes, s => u < s) + 1;
        }
    }
}

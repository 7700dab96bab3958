using Goodsheet.Room.Buying;

namespace Goodsheet.Room.Tests.Buying;

public class PerishableStockTest
{
    /// <summary>The room's rule is to come so near to the best there is.</summary>
    private const double NearBest = 0.05;

    /// <summary>Half the last digit of a profit printed with two decimals.</summary>
    private const double TwoDecimals = 0.005;

    private static readonly DateOnly Today = new(2026, 3, 2);

    /// <summary>De Moor, Gijsbrechts, Boute, EJOR 301, 2022, Fig. 3, right: life 2, the oldest given first. Rows: 8 fresh down to 0; columns: 0 to 8 old.</summary>
    private static readonly string[] OldestFirst =
        ["100000000", "110000000", "211000000", "221100000", "322111100", "332211111", "433322222", "443333333", "444444444"];

    /// <summary>The same, left: the takers choose the freshest.</summary>
    private static readonly string[] FreshestFirst =
        ["000000000", "000000000", "000000000", "000000000", "111111111", "222222222", "333333333", "333333333", "333333333"];

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_to_order_is_what_the_paper_prints_in_all_81_cells(bool freshestFirst)
    {
        var best = DeMoor(freshestFirst).Best(discount: 0.99).Orders;
        string[] found = [.. Enumerable.Range(0, 9).Select(row => string.Concat(Enumerable.Range(0, 9).Select(old => best([8 - row, old]))))];
        Assert.Equal(freshestFirst ? FreshestFirst : OldestFirst, found);
    }

    /// <summary>Hendrix, Ortega, Haijema, Buisman, García, 2019, as carried by viso_jax: Poisson 5, bought at 0.5, sold at 1. More than 10 is never ordered.</summary>
    [Theory]
    [InlineData(2, 2.22)]
    [InlineData(3, 2.40)]
    [InlineData(4, 2.47)]
    public void The_best_profit_is_the_published_one(int life, double profit) => Assert.Equal(profit, Hendrix(life).Best(1e-4).Earned, TwoDecimals);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_rooms_own_rule_costs_little_more_than_the_best(bool freshestFirst)
    {
        var stock = DeMoor(freshestFirst);
        Assert.InRange(OwnRule(stock, 4, 4, new(freshestFirst, Leave: true)) / stock.Best().Earned, 1, 1 + NearBest);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void The_rooms_own_rule_earns_little_less_than_the_best(int life)
    {
        var stock = Hendrix(life);
        Assert.InRange(OwnRule(stock, 5, 5, new(FreshestFirst: false, Leave: true)) / stock.Best(1e-4).Earned, 1 - NearBest, 1);
    }

    [Fact]
    public void More_ages_than_can_be_gone_through_are_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new PerishableStock(9, 10, [1], false, new(1, 1, 1, 1, 1)));

    /// <summary>The rule that proposes orders, at the fill rate that suits these prices best, as a room sets its own.</summary>
    private static double OwnRule(PerishableStock stock, double mean, double variance, Takers takers)
    {
        double[] fills = [0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.93, 0.95, 0.97, 0.98, 0.99];
        return fills.Max(fill => stock.WorthOf(ages => Reorder.Of(
            new()
            {
                Item = new(new("marl"), new("A2")),
                IsRoll = false,
                Pack = 1,
                Lots = [.. ages.Select((left, age) => ((long)left, (DateOnly?)Today.AddDays(stock.Life - 1 - age)))],
                OnTheWay = 0,
                Promised = 0,
                Reserve = 0,
                PerDay = mean,
                VariancePerDay = variance,
            },
            new(Today, Today.AddDays(1), default, Today, Today.AddDays(2)), Today, fill, Lateness.Never, takers).Packs, 1e-4));
    }

    private static PerishableStock DeMoor(bool freshestFirst) =>
        new(2, 10, [.. Enumerable.Range(0, 101).Select(d => d == 100 ? 1 - Erlang(99.5) : Erlang(d + 0.5) - (d == 0 ? 0 : Erlang(d - 0.5)))], freshestFirst, new(3, 5, 7, 1, 0));

    private static PerishableStock Hendrix(int life) => new(life, 10, CountDistribution.Poisson(5).Chances, false, new(0.5, 0, 0, 0, 1));

    /// <summary>The gamma distribution with mean 4 and coefficient of variation 0.5: shape 4, rate 1.</summary>
    private static double Erlang(double x) => 1 - (Math.Exp(-x) * (1 + x + (x * x / 2) + (x * x * x / 6)));
}

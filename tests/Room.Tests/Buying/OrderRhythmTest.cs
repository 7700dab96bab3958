using CsCheck;
using Goodsheet.Room.Buying;

namespace Goodsheet.Room.Tests.Buying;

public class OrderRhythmTest
{
    private const double Rounding = 1e-9;

    /// <summary>One item, no carriage: the square root of 2 K D / h (Harris, 1913, as in every textbook), by hand.</summary>
    [Fact]
    public void One_item_is_ordered_by_the_square_root()
    {
        var found = OrderRhythm.Find(4, 1, 0.1, new(0, null, 0), [1000]);
        Assert.Equal(Math.Sqrt(2 * 5 * 1000 / 0.1), found.Basket, Rounding * found.Basket);
        Assert.Equal(Math.Sqrt(2 * 5 * 1000 * 0.1), found.CostAYear, Rounding * found.CostAYear);
        Assert.True(found.AllTried);
    }

    [Fact]
    public void Waiting_until_carriage_is_free_is_chosen_where_it_costs_less() =>
        Gen.Select(Gen.Double[50, 5_000].Array[1, 4], Gen.Double[0, 60], Gen.Double[20, 2_000]).Sample((bought, carriage, free) =>
        {
            var with = OrderRhythm.Find(5, 1, 0.1, new(carriage, free, 0), bought);
            var never = OrderRhythm.Find(5, 1, 0.1, new(carriage, null, 0), bought);
            Assert.True(with.CostAYear <= never.CostAYear * (1 + Rounding));
            Assert.True((with.CarriagePaid == 0) == (with.Basket >= free * (1 - Rounding) || carriage == 0));
        });

    [Fact]
    public void No_order_is_under_the_least_that_the_supplier_takes() =>
        Assert.Equal(900, OrderRhythm.Find(5, 1, 0.1, new(8, 250, 900), [400, 300]).Basket, Rounding * 900);

    [Theory]
    [InlineData(0, 0, 0, Standing.New)]
    [InlineData(2, 2, 2, Standing.New)]
    [InlineData(20, 20, 20, Standing.Rely)]
    [InlineData(20, 17, 20, Standing.Watch)]
    [InlineData(20, 13, 20, Standing.Talk)]
    [InlineData(20, 8, 20, Standing.Leave)]
    [InlineData(20, 20, 8, Standing.Leave)]
    [InlineData(5, 0, 5, Standing.Talk)]
    public void A_supplier_stands_by_what_it_kept(int deliveries, int onTime, int complete, Standing standing) =>
        Assert.Equal(standing, SupplierStanding.Of((deliveries, onTime, complete), (100 + deliveries, 90 + onTime, 95 + complete)).Standing);

    [Fact]
    public void Few_deliveries_are_judged_with_those_of_all() =>
        Assert.Equal((3 + (0.9 * 5)) / 8, SupplierStanding.Of((3, 3, 3), (100, 90, 90)).OnTime, Rounding);

    [Fact]
    public void Nothing_is_bought_for_more_than_a_year()
    {
        var found = OrderRhythm.Find(20, 5, 0.1, new(15, null, 0), [198, 391, 267, 2.2]);
        Assert.InRange(found.EveryDays, 300, 365);
        Assert.All(found.Multiples, m => Assert.Equal(1, m));
    }
}

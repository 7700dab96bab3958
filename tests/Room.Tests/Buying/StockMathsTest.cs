using Goodsheet.Room.Buying;

namespace Goodsheet.Room.Tests.Buying;

/// <summary>The published examples, to the digits they are printed with.</summary>
public class StockMathsTest
{
    /// <summary>Half the last digit of figures given to ten decimals.</summary>
    private const double TenDigits = 5e-9;

    /// <summary>36 months of an item wanted now and then, with its published smoothings.</summary>
    private static readonly double[] Months =
        [0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, 3, 1, 0, 0, 1, 0, 1, 0, 0];

    /// <summary>Snyder, Shen, 2nd ed. 2019, Examples 3.1, 4.1 and 5.1.</summary>
    [Fact]
    public void Order_quantity_newsvendor_and_order_point_agree_with_the_textbook()
    {
        var (quantity, cost) = ClosedForms.EconomicOrder(8, 0.225, 1300);
        Assert.Equal(304.0467800264, quantity, TenDigits);
        Assert.Equal(68.4105255059, cost, TenDigits);
        var (once, wrong) = ClosedForms.Newsvendor(0.18, 0.7, 50, 8);
        Assert.Equal(56.6039559274, once, TenDigits);
        Assert.Equal(1.9976051932, wrong, TenDigits);
        var point = new PointAndQuantity(126.8, 328.5, 1300.0 / 12, 150 / Math.Sqrt(12));
        Assert.Equal(78.0711625093, point.Cost(8, 0.225, 7.5, 1300), TenDigits);
        Assert.Equal(0.6651, point.CycleService, 5e-5);
        Assert.Equal(0.97081, point.FillRate, 5e-6);
    }

    /// <summary>Snyder, Shen, Example 4.7.</summary>
    [Fact]
    public void The_textbooks_least_and_most_are_found()
    {
        var policy = MinMaxPolicy.Find(5, 1, 4, CountDistribution.Poisson(6));
        Assert.Equal((4, 10), (policy.Least, policy.UpTo));
        Assert.Equal(8.0341115615, policy.Cost, TenDigits);
    }

    /// <summary>Zheng, Federgruen, Oper. Res. 39(4), 1991: all 24 rows, Poisson demand, h 1, p 9, K 64.</summary>
    [Theory]
    [InlineData(10, 6, 40, 35.022)]
    [InlineData(15, 10, 49, 42.698)]
    [InlineData(20, 14, 62, 49.173)]
    [InlineData(25, 19, 56, 54.262)]
    [InlineData(30, 23, 66, 57.819)]
    [InlineData(35, 28, 77, 61.215)]
    [InlineData(40, 33, 87, 64.512)]
    [InlineData(45, 37, 97, 67.776)]
    [InlineData(50, 42, 108, 70.975)]
    [InlineData(55, 47, 118, 74.149)]
    [InlineData(60, 52, 129, 77.306)]
    [InlineData(65, 56, 75, 78.518)]
    [InlineData(70, 62, 81, 79.037)]
    [InlineData(75, 67, 86, 79.554)]
    [InlineData(21, 15, 65, 50.406)]
    [InlineData(22, 16, 68, 51.632)]
    [InlineData(23, 17, 52, 52.757)]
    [InlineData(24, 18, 54, 53.518)]
    [InlineData(51, 43, 110, 71.611)]
    [InlineData(52, 44, 112, 72.246)]
    [InlineData(59, 51, 126, 76.679)]
    [InlineData(61, 52, 131, 77.929)]
    [InlineData(63, 54, 73, 78.287)]
    [InlineData(64, 55, 74, 78.402)]
    public void The_best_least_and_most_are_the_published_ones(double mean, int least, int upTo, double cost)
    {
        var policy = MinMaxPolicy.Find(64, 1, 9, CountDistribution.Poisson(mean));
        Assert.Equal((least, upTo), (policy.Least, policy.UpTo));
        Assert.Equal(cost, policy.Cost, 5.1e-4);
    }

    /// <summary>Snyder, Shen, Example 3.9.</summary>
    [Fact]
    public void Known_demand_is_ordered_when_it_costs_least()
    {
        var plan = LotSizing.Find([90, 120, 80, 70], 500, 2);
        Assert.Equal([210, 0, 150, 0], plan.Orders);
        Assert.Equal(1380, plan.Cost, TenDigits);
    }

    /// <summary>The numerical example of Silver, Management Science 22(12), 1976, as carried by stockpyl (MIT).</summary>
    [Fact]
    public void Items_ordered_together_cost_what_the_example_says_and_trying_all_costs_less()
    {
        JointOrders.Item[] items = [new(1.87, 0.2, 1736), new(5.27, 0.2, 656), new(7.94, 0.2, 558), new(8.19, 0.2, 170), new(8.87, 0.2, 142)];
        Assert.Equal(218.686, JointOrders.Heuristic(10, items).Cost, 5e-4);
        Assert.Equal(218.2516, JointOrders.Find(10, items).Cost, 5e-5);
    }

    [Fact]
    public void What_is_wanted_now_and_then_is_smoothed_as_published()
    {
        Assert.Equal(0.98460, SporadicDemand.Croston(Months, 0.1), 5e-6);
        Assert.Equal(0.93537, SporadicDemand.SyntetosBoylan(Months, 0.1), 5e-6);
        Assert.Equal(1.362535, SporadicDemand.Croston(Months.AsSpan(0, 24), 0.1), 5e-7);
        Assert.Equal(1.294408, SporadicDemand.SyntetosBoylan(Months.AsSpan(0, 24), 0.1), 5e-7);
        Assert.Equal(0.758488, SporadicDemand.TeunterSyntetosBabai(Months.AsSpan(0, 24), 0.1, 0.1), 5e-7);
        Assert.Equal(0, SporadicDemand.Croston([0, 0, 0], 0.1));
    }

    /// <summary>Efron, Morris, 1975: 18 averages after 45 tries each; the printed c is .212.</summary>
    [Fact]
    public void Short_records_are_drawn_together_as_published()
    {
        double[] averages = [0.4, 0.378, 0.356, 0.333, 0.311, 0.311, 0.289, 0.267, 0.244, 0.244, 0.222, 0.222, 0.222, 0.222, 0.222, 0.2, 0.178, 0.156];
        var mean = averages.Average();
        Assert.Equal(0.212, Shrinkage.Believed(averages, mean * (1 - mean) / 45), 5e-4);
    }

    /// <summary>Demand 2500 a day (deviation 500), lead time 7 days (deviation 7), 90 %: 22,491.</summary>
    [Fact]
    public void An_unreliable_lead_time_is_priced_in_safety_stock() =>
        Assert.Equal(22_491, Normal.Quantile(0.9) * ClosedForms.LeadTimeDeviation(2_500, 500, 7, 7), 0.5);
}

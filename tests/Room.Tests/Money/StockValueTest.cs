using Goodsheet.Room.Money;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Tests.Money;

/// <summary>What lies here in money. The figures are worked by hand beside each check; no published example was at hand.</summary>
public sealed class StockValueTest
{
    private static readonly ItemCode Item = new(new("invented"), new("A2"));
    private static readonly DateOnly First = new(2026, 1, 1);
    private static readonly Account Heron = new("printer:heron");

    [Fact]
    public void First_in_first_out_leaves_the_newest_costs_and_the_average_mixes_each_receipt_in()
    {
        // 10 at 2.00, 10 at 3.00, 8 used, 10 at 4.00, 10 used: 12 are left.
        CostedMove[] moves =
        [
            Came(0, 10, 2), Came(1, 10, 3), Used(2, 8), Came(3, 10, 4), Used(4, 10),
        ];
        var value = StockValue.Of(moves);
        Assert.Equal(12, value.OnHand);
        Assert.Equal(46m, value.Fifo); // 10 at 4, 2 at 3
        Assert.Equal(12 * 3.1818181818m, value.Average!.Value, 6); // 20 at 2.50; 12 left; (12 x 2.5 + 10 x 4) / 22 = 3.1818...
    }

    [Fact]
    public void Paper_at_a_printer_still_lies_here_and_what_comes_back_brings_no_cost()
    {
        CostedMove[] moves = [Came(0, 10, 2), Moved(1, Account.Shelf, Heron, 4), Moved(2, Heron, Account.Good, 1), Moved(3, Heron, Account.Shelf, 3)];
        Assert.Equal(new(9, 18, 18), StockValue.Of(moves));
    }

    [Fact]
    public void Without_any_price_there_is_no_value_and_without_paper_it_is_nothing()
    {
        Assert.Equal(new(10, null, null), StockValue.Of([Came(0, 10, null)]));
        Assert.Equal(new(0, 0, 0), StockValue.Of([Came(0, 10, 2), Used(1, 10)]));
    }

    [Fact]
    public void What_a_count_finds_beyond_all_receipts_costs_as_the_oldest()
    {
        CostedMove[] moves = [Came(0, 10, 2), Came(1, 10, 3), Moved(2, Account.CountDifference, Account.Shelf, 5)];
        Assert.Equal(60m, StockValue.Of(moves).Fifo); // 30 + 20 + 5 at 2
    }

    [Fact]
    public void Turns_are_use_over_what_lay_here_on_the_mean_day()
    {
        // 10 lie here for two days, then 5 for two: 7.5 in the mean; 5 used in 4 days is 456.25 a year, 60.8 times 7.5.
        var turn = StockTurn.Of([Came(0, 10, 2), Used(2, 5)], First.AddDays(3));
        Assert.Equal((5, 4, 7.5, First.AddDays(2)), (turn.Used, turn.Days, turn.MeanOnHand, turn.LastUsed));
        Assert.Equal(5 / 7.5 * 365 / 4, turn.PerYear!.Value, 9);
        Assert.Equal(6, turn.DaysLying!.Value, 9);
        Assert.Null(StockTurn.Of([Came(0, 10, 2)], First.AddDays(3)).DaysLying);
    }

    [Fact]
    public void What_is_sent_back_is_not_used()
    {
        var turn = StockTurn.Of([Came(0, 10, 2), Moved(1, Account.Shelf, Account.Supplier, 4)], First.AddDays(3));
        Assert.Equal((0L, null), (turn.Used, turn.LastUsed));
    }

    private static CostedMove Came(int day, long quantity, decimal? cost) =>
        new(Item, new($"{day}"), First.AddDays(day), Account.Supplier, Account.Shelf, quantity, cost);

    private static CostedMove Used(int day, long quantity) => Moved(day, Account.Shelf, Account.Tests, quantity);

    private static CostedMove Moved(int day, Account from, Account to, long quantity) => new(Item, new("1"), First.AddDays(day), from, to, quantity, null);
}

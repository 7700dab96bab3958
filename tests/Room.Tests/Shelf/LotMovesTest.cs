using CsCheck;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Tests.Shelf;

public class LotMovesTest
{
    private static readonly DateOnly Monday = new(2026, 3, 2);
    private static readonly PrinterCode Heron = new("heron");

    [Fact]
    public void A_lot_gives_its_last_sheet_and_not_one_more()
    {
        var (lot, balance) = (Lot(), Holding(25));
        Assert.True(lot.Draw(balance, 25, Heron, Wish(), Monday).Granted);
        Assert.Equal(new NotEnough(lot.Code, Account.Shelf, 26, 25), lot.Draw(balance, 26, Heron, Wish(), Monday).Refusal);
    }

    [Fact]
    public void A_lot_is_good_on_its_last_day_and_not_the_day_after()
    {
        var lot = Lot(bestBefore: Monday);
        Assert.True(lot.Draw(Holding(25), 1, Heron, Wish(), Monday).Granted);
        Assert.IsType<LotOutOfDate>(lot.Draw(Holding(25), 1, Heron, Wish(), Monday.AddDays(1)).Refusal);
    }

    [Fact]
    public void An_extension_by_decision_carries_it_on()
    {
        var lot = Lot(bestBefore: Monday);
        lot.ExtendedTo = Monday.AddDays(30);
        Assert.True(lot.Draw(Holding(25), 1, Heron, Wish(), Monday.AddDays(30)).Granted);
        Assert.IsType<LotOutOfDate>(lot.Draw(Holding(25), 1, Heron, Wish(), Monday.AddDays(31)).Refusal);
    }

    [Fact]
    public void Out_of_date_paper_still_serves_tests() =>
        Assert.True(Lot(bestBefore: Monday).DrawForTests(Holding(25), 1, Wish()).Granted);

    [Fact]
    public void No_more_comes_out_of_a_printer_than_went_in()
    {
        var lot = Lot();
        var balance = Holding(25);
        balance = balance.After(lot.Draw(balance, 4, Heron, Wish(), Monday).Value!);
        Assert.Equal(
            new NotEnough(lot.Code, Account.At(Heron), 5, 4), lot.Use(balance, 5, Heron, Account.Good, Wish()).Refusal);
        balance = balance.After(lot.Use(balance, 3, Heron, Account.Good, Wish()).Value!);
        balance = balance.After(lot.Use(balance, 1, Heron, Account.Waste(WasteCause.Curl), Wish()).Value!);
        Assert.Equal((21, 21), (balance.OnShelf, balance.InRoom));
    }

    [Fact]
    public void No_account_that_holds_paper_is_ever_below_nothing_whatever_is_asked() =>
        Gen.Select(Gen.Int[1, 500], Gen.Select(Gen.Int[1, 100], Gen.Int[0, 5]).List[0, 40]).Sample((received, wishes) =>
        {
            var lot = Lot();
            var balance = Holding(received);
            foreach (var (quantity, kind) in wishes)
            {
                var asked = kind switch
                {
                    0 => lot.Draw(balance, quantity, Heron, Wish(), Monday),
                    1 => lot.Use(balance, quantity, Heron, Account.Good, Wish()),
                    2 => lot.Use(balance, quantity, Heron, Account.Waste(WasteCause.Dust), Wish()),
                    3 => lot.BringBack(balance, quantity, Heron, Wish()),
                    4 => lot.Spoil(balance, quantity, WasteCause.Handling, Wish()),
                    _ => lot.DrawForTests(balance, quantity, Wish()),
                };
                balance = asked.Granted ? balance.After(asked.Value) : balance;
                Assert.True(balance.OnShelf >= 0 && balance.AtPrinters.Values.All(q => q > 0));
            }
        });

    private static Lot Lot(DateOnly? bestBefore = null) => new()
    {
        Code = new("L1"),
        Paper = new("baryta-310"),
        Format = new("A2"),
        Received = Monday,
        BestBefore = bestBefore,
    };

    private static Wish Wish() => new(CommandId.New(), new("Mira"), new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static LotBalance Holding(int sheets)
    {
        var nothing = LotBalance.Nothing(new("L1"));
        return nothing.After(Lot().PutAway(nothing, sheets, Wish()));
    }
}

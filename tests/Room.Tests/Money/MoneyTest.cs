using CsCheck;
using Goodsheet.Room.Money;

namespace Goodsheet.Room.Tests.Money;

public class MoneyTest
{
    // Invented figures, not those of any market.
    private static readonly Rates Invented = new()
    {
        Number = 1,
        From = new(2026, 1, 1),
        Currency = "EUR",
        InkPerMl = 0.5m,
        MlPerSquareMetre = 12,
        PurgeShare = 0.1m,
        PrinterPerMinute = 0.2m,
        PersonPerMinute = 0.5m,
        PersonMinutesPerPrint = 4,
        SpoilRate = 0.05m,
        Overhead = 0.2m,
        Margin = 0.4m,
        RoundUpTo = 0.5m,
        MinimumCharge = 15,
        TaxName = "VAT",
        Tax = 0.2m,
        Steps = "10: 5, 25: 10",
    };

    /// <summary>Kaplan and Anderson's customer service department: Harvard Business Review 82(11), 2004.</summary>
    [Fact]
    public void Capacity_costs_what_Kaplan_and_Anderson_reckoned()
    {
        var department = new Capacity(700_000, 560_000);
        Assert.Equal(0.80m, department.PerMinute);
        Assert.Equal((32m, 176m, 200m), (department.CostOf(40), department.CostOf(220), department.CostOf(250)));
        Assert.Equal(97_120m, department.Unused(578_600));
    }

    [Fact]
    public void A_margin_of_a_third_is_a_markup_of_a_half()
    {
        Assert.Equal(0.5m, Math.Round(Pricing.MarkupOf(1m / 3), 20));
        Assert.Equal(1m / 3, Math.Round(Pricing.MarginOf(0.5m), 28));
        Assert.Equal(15m, Math.Round(Pricing.WithMargin(10, 1m / 3), 20));
        Gen.Int[0, 99].Sample(percent => Assert.Equal(percent / 100m, Math.Round(Pricing.MarginOf(Pricing.MarkupOf(percent / 100m)), 20)));
    }

    [Theory]
    [InlineData("10.01", "0.5", "10.5")]
    [InlineData("10.5", "0.5", "10.5")]
    [InlineData("10.001", "0", "10.01")]
    [InlineData("10.01", "1", "11")]
    public void Prices_are_rounded_up_to_the_rooms_step(string price, string step, string rounded) =>
        Assert.Equal(Of(rounded), Pricing.RoundUp(Of(price), Of(step)));

    [Fact]
    public void A_cost_sheet_has_every_line_and_a_good_print_bears_the_spoiled_ones()
    {
        var sheet = CostSheet.Of(new(2, 0.5m, 0.3m, 10, 3, 8), Invented);
        Assert.Equal([4m, 1.8m, 0.18m, 2m, 5.5m], sheet.Lines.Take(5).Select(l => l.Amount));
        var good = 4 + 1.8m + 0.18m + 2 + 5.5m;
        Assert.Equal(good / 0.95m * 1.2m, sheet.Total, 20);
    }

    [Fact]
    public void Ten_thousand_random_quotes_sum_to_the_cent() =>
        Gen.Select(Gen.Select(Gen.Int[1, 60], Gen.Int[0, 500_000]).Array[1, 12], Gen.Int[0, 90], Gen.Int[0, 3], Gen.Int[0, 2500]).Sample((prints, margin, step, tax) =>
        {
            var rates = new Rates { Number = 1, From = default, Currency = "EUR", Margin = margin / 100m, RoundUpTo = ((decimal[])[0, 0.05m, 0.5m, 1])[step], TaxName = "VAT", Tax = tax / 10_000m, Steps = "3: 2.5, 10: 7", MinimumCharge = 20 };
            var quote = Quote.Of([.. prints.Select((p, i) => new Quote.Priced($"{i}", p.Item1, p.Item2 / 1000m, null))], rates).Value!;
            return quote.Lines.Sum(l => l.Net) == quote.Net && quote.Net + quote.Tax == quote.ToPay && quote.Net >= 20
                && quote.Lines.All(l => Math.Round(l.Net, 2) == l.Net) && Math.Round(quote.Tax, 2) == quote.Tax;
        }, iter: 10_000);

    [Fact]
    public void Shares_are_within_a_cent_of_exact() =>
        Gen.Select(Gen.Int[0, 1_000_000].Array[1, 20], Gen.Int[0, 1_000_000]).Sample((parts, cents) =>
        {
            var exact = parts.Select(p => (decimal)p).ToArray();
            var shares = LargestRemainder.Share(cents / 100m, exact);
            var sum = exact.Sum();
            return shares.Sum() == cents / 100m && (sum == 0 || shares.Zip(exact).All(s => Math.Abs(s.First - (s.Second / sum * cents / 100m)) < 0.01m));
        });

    [Fact]
    public void Steps_minimum_tax_and_an_agreed_price_are_kept()
    {
        var nine = Quote.Of([new("print", 9, 90, null)], Invented).Value!;
        var ten = Quote.Of([new("print", 10, 100, null)], Invented).Value!;
        Assert.Equal((17m, 0m, 153m), (nine.Lines[0].Each, nine.Lines[0].OffPercent, nine.Net));
        Assert.Equal((17m, 5m, 161.5m, 32.3m), (ten.Lines[0].Each, ten.Lines[0].OffPercent, ten.Net, ten.Tax));
        var small = Quote.Of([new("print", 1, 1, null)], Invented).Value!;
        Assert.Equal((15m, 18m), (small.Net, small.ToPay));
        Assert.Equal(120m, Quote.Of([new("print", 10, 100, 12)], Invented).Value!.Net);
    }

    [Theory]
    [InlineData("10")]
    [InlineData("10: 5, 5: 7")]
    [InlineData("0: 5")]
    [InlineData("10: 100")]
    public void Steps_that_cannot_be_are_refused(string text) => Assert.IsType<QuantitySteps.NotSteps>(QuantitySteps.Read(text).Refusal);

    private static decimal Of(string text) => decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}

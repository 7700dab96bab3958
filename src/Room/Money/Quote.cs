using System.Globalization;

namespace Goodsheet.Room.Money;

/// <summary>A line of a quotation. What is asked for it is exact to the cent.</summary>
public sealed record QuoteLine(string What, int Copies, decimal Each, decimal OffPercent, decimal Net);

/// <summary>A price for an order: lines that sum to the net, tax, and what is to be paid.</summary>
public sealed record Quote(IReadOnlyList<QuoteLine> Lines, decimal Net, string TaxName, decimal TaxPercent, decimal Tax)
{
    public decimal ToPay => Net + Tax;

    /// <summary>A print as it is priced.</summary>
    /// <param name="Cost">Of all copies.</param>
    /// <param name="AgreedEach">A client's own price of one; none if it is reckoned from the cost.</param>
    public sealed record Priced(string What, int Copies, decimal Cost, decimal? AgreedEach);

    public static Outcome<Quote> Of(IReadOnlyList<Priced> prints, Rates rates)
    {
        if (prints.Count == 0 || prints.Any(p => p.Copies < 1 || p.Cost < 0 || p.AgreedEach < 0))
        {
            return new NothingToPrice();
        }

        var steps = QuantitySteps.Read(rates.Steps);
        if (!steps.Granted)
        {
            return steps.Refusal;
        }

        var lines = new List<QuoteLine>();
        foreach (var print in prints)
        {
            var each = print.AgreedEach is { } agreed ? agreed : Pricing.RoundUp(Pricing.WithMargin(print.Cost / print.Copies, rates.Margin), rates.RoundUpTo);
            var off = print.AgreedEach is null ? steps.Value.OffPercent(print.Copies) : 0;
            lines.Add(new(print.What, print.Copies, each, off, print.Copies * each * (1 - (off / 100))));
        }

        // The lines are exact; the net is rounded once, and its cents are shared out so that the lines sum to it.
        var net = Pricing.ToTheCent(lines.Sum(l => l.Net));
        var shares = LargestRemainder.Share(net, [.. lines.Select(l => l.Net)]);
        lines = [.. lines.Select((l, i) => l with { Net = shares[i] })];
        if (net < rates.MinimumCharge)
        {
            var rest = Pricing.ToTheCent(rates.MinimumCharge) - net;
            lines.Add(new("Up to the minimum charge", 1, rest, 0, rest));
            net += rest;
        }

        return new Quote(lines, net, rates.TaxName, 100 * rates.Tax, rates.TaxName.Length == 0 ? 0 : Pricing.ToTheCent(net * rates.Tax));
    }

    public sealed record NothingToPrice() : Refusal("There is nothing to price: a print has one copy at least and costs nothing or more.");
}

/// <summary>So much off from so many copies of one print on.</summary>
public sealed record QuantitySteps(IReadOnlyList<(int From, decimal Percent)> Steps)
{
    public decimal OffPercent(int copies) => Steps.Where(s => copies >= s.From).Select(s => s.Percent).LastOrDefault();

    /// <summary>Reads "10: 5, 25: 10".</summary>
    public static Outcome<QuantitySteps> Read(string text)
    {
        var steps = new List<(int From, decimal Percent)>();
        foreach (var part in text.Split([',', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var pair = part.Split(':', StringSplitOptions.TrimEntries);
            if (pair.Length != 2 || !int.TryParse(pair[0], NumberStyles.None, CultureInfo.InvariantCulture, out var from)
                || !decimal.TryParse(pair[1], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var percent) || from < 1 || percent >= 100
                || (steps.Count > 0 && from <= steps[^1].From))
            {
                return new NotSteps(part);
            }

            steps.Add((from, percent));
        }

        return new QuantitySteps(steps);
    }

    public sealed record NotSteps(string Part) : Refusal($"\"{Part}\" is not a quantity step. Write them as 10: 5, 25: 10, from small to large: from ten copies on five per cent off, from 25 ten.");
}

/// <summary>What an order, paper or client left over once the work was done.</summary>
public sealed record Profit(string Of, decimal Net, decimal Cost)
{
    public decimal Left => Net - Cost;

    public decimal? Margin => Net == 0 ? null : Left / Net;
}

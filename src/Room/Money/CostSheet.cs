namespace Goodsheet.Room.Money;

/// <summary>What a print takes.</summary>
/// <param name="Copies">Good prints wanted.</param>
/// <param name="PaperSquareMetres">All paper of all copies, with trim.</param>
/// <param name="ImageSquareMetres">What is inked.</param>
/// <param name="PrinterMinutes">Printing and its share of changes.</param>
/// <param name="FeedMinutes">By hand.</param>
/// <param name="PaperPerSquareMetre">In the room's money.</param>
public sealed record PrintWork(
    int Copies, decimal PaperSquareMetres, decimal ImageSquareMetres, decimal PrinterMinutes, decimal FeedMinutes, decimal PaperPerSquareMetre);

/// <summary>A line of a cost sheet: what, how it was reckoned, and the amount before rounding.</summary>
public sealed record CostLine(string What, string How, decimal Amount);

/// <summary>What a print costs the room, line by line.</summary>
public sealed record CostSheet(IReadOnlyList<CostLine> Lines)
{
    public decimal Total => Lines.Sum(l => l.Amount);

    public static CostSheet Of(PrintWork work, Rates rates)
    {
        var ml = work.ImageSquareMetres * rates.MlPerSquareMetre;
        var hands = work.FeedMinutes + (work.Copies * rates.PersonMinutesPerPrint);
        var lines = new List<CostLine>
        {
            new("Paper, with trim", Inv($"{work.PaperSquareMetres:0.###} m2 at {work.PaperPerSquareMetre:0.00} a m2"), work.PaperSquareMetres * work.PaperPerSquareMetre),
            new("Ink", Inv($"{ml:0.##} ml at {rates.InkPerMl:0.00##}"), ml * rates.InkPerMl),
            new("Its share of purges", Inv($"{ml * rates.PurgeShare:0.##} ml"), ml * rates.PurgeShare * rates.InkPerMl),
            new("Printer", Inv($"{work.PrinterMinutes:0.#} min at {rates.PrinterPerMinute:0.00##}"), work.PrinterMinutes * rates.PrinterPerMinute),
            new("Hands", Inv($"{hands:0.#} min at {rates.PersonPerMinute:0.00##}"), hands * rates.PersonPerMinute),
        };
        var good = lines.Sum(l => l.Amount);
        // Of a hundred started, so many are good: each good one bears the others.
        lines.Add(new("Spoilage", Inv($"{100 * rates.SpoilRate:0.#} in a hundred"), (good / (1 - rates.SpoilRate)) - good));
        lines.Add(new("Overhead", Inv($"{100 * rates.Overhead:0.#} %"), lines.Sum(l => l.Amount) * rates.Overhead));
        return new(lines);
    }

    private static string Inv(FormattableString text) => text.ToString(System.Globalization.CultureInfo.CurrentCulture);
}

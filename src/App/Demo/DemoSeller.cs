using Goodsheet.App.Buying;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Demo;

/// <summary>An invented supplier: what it says, and how far it keeps to it.</summary>
/// <param name="Terms">As the room wrote them down.</param>
/// <param name="OnTime">How often a delivery comes on the promised day.</param>
/// <param name="MostDaysLate">How late it is otherwise, at most.</param>
/// <param name="Short">How often a line is missing from a delivery.</param>
/// <param name="Damaged">How often sheets of a line are damaged.</param>
internal sealed record DemoSeller(SupplierTerms Terms, double OnTime, int MostDaysLate, double Short, double Damaged)
{
    private const string Zone = "Europe/London";

    /// <summary>One next day and to be relied on, one slow and whole, one often late, short or bent.</summary>
    public static readonly IReadOnlyList<DemoSeller> All =
    [
        new(Of(DemoCast.Sundry, "next day", new(14, 30), 1, 0, 120, 9, "Answers the telephone."), 0.98, 1, 0.01, 0),
        new(Of(DemoCast.Fable, "weekly van", new(11, 0), 4, 30, 250, 12, "Slow, but it comes whole."), 0.93, 2, 0.02, 0.01),
        new(Of(DemoCast.Tortoise, "carrier", new(16, 0), 3, 0, null, 15, "Says three days."), 0.5, 6, 0.25, 0.15),
    ];

    public string Name => Terms.Name;

    /// <summary>Invented, in the demonstration's own money: by area and weight, for no market.</summary>
    public static decimal PriceOf(DemoItem item)
    {
        var squareMetres = item.Format switch { "A4" => 0.0624m, "A3" => 0.1247m, "A3+" => 0.1589m, "A2" => 0.2495m, _ => 0.61m / 1000 };
        return Math.Round(item.Pack * squareMetres * (6m + (DemoCast.Paper(item.Code.Paper).Grammage / 25m)), 2);
    }

    private static SupplierTerms Of(string name, string way, TimeOnly cutOff, int days, decimal minimum, decimal? free, decimal carriage, string note) =>
        new(name, Zone, WorkingWeek.MondayToFriday, WorkingWeek.MondayToFriday, null, minimum, free, carriage, "", $"Invented. {note}", [new(way, cutOff, days)]);
}

using Goodsheet.Room.Layout;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Shelf;

/// <summary>How a larger format is cut into a smaller one: the most pieces a guillotine gives, and the cuts in order.</summary>
/// <param name="PerSheet">Pieces from one sheet, or from the length of roll.</param>
/// <param name="Cuts">The cuts of one sheet.</param>
/// <param name="UsedPercent">Of the paper.</param>
/// <param name="Offcuts">What is left of one sheet, in mm, largest first.</param>
public sealed record Trimming(int PerSheet, IReadOnlyList<NumberedCut> Cuts, double UsedPercent, IReadOnlyList<(double WidthMm, double HeightMm)> Offcuts)
{
    /// <summary>Finds the best cutting of a sheet, or of so much of a roll.</summary>
    /// <param name="from">What is cut.</param>
    /// <param name="length">Of a roll, how much of it; of a sheet it is not asked.</param>
    /// <param name="into">What it is cut into: sheets.</param>
    public static Outcome<Trimming> Of(Format from, Length length, Format into)
    {
        if (into.IsRoll || (!from.IsRoll && from.Code == into.Code))
        {
            return new NotSmaller(from.Code, into.Code);
        }

        var (width, height) = (from.Width, from.IsRoll ? length : from.Height);
        var found = BestYield.Find([new(into.Code.Value, into.Width, into.Height)], [1], width, height, Length.Zero);
        if (!found.Granted)
        {
            return found.Refusal;
        }

        if (found.Value.Value == 0)
        {
            return new NotSmaller(from.Code, into.Code);
        }

        var stock = Stock.Sheet(width, height);
        var sheet = CutSheet.Of(stock, height.Micrometres, found.Value.Tree);
        return new Trimming(
            found.Value.Value, CutList.Of(stock, sheet),
            Math.Round(100 * sheet.Placements.Sum(p => (double)p.Place.Size) / ((double)sheet.Width * sheet.Height), 1),
            [.. sheet.Offcuts.OrderByDescending(o => o.Size).Select(o => (o.Width / 1000.0, o.Height / 1000.0))]);
    }
}

public sealed record NotSmaller(FormatCode From, FormatCode Into) : Refusal($"No {Into} can be cut out of {From}. Nothing was moved.");

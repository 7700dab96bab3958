using Goodsheet.Room.Units;

namespace Goodsheet.Room.Layout;

/// <summary>What a feed path cannot print: kept free at each edge, and cut off every piece that lies along it.</summary>
public readonly record struct Margins(Length Left, Length Right, Length Lead, Length Tail)
{
    public static Margins None => default;
}

/// <summary>The paper that pieces are cut from: a roll of a width, or sheets of a size.</summary>
/// <param name="Height">Of a sheet; none for a roll, which gives as much as is needed.</param>
/// <param name="Gutter">Clearance the knife takes between two neighbours; none at the edge of the paper.</param>
public sealed record Stock(Length Width, Length? Height, Margins Margins, Length Gutter)
{
    public bool IsRoll => Height is null;

    internal long UsableWidth => Width.Micrometres - Margins.Left.Micrometres - Margins.Right.Micrometres;

    internal long Ends => Margins.Lead.Micrometres + Margins.Tail.Micrometres;

    /// <summary>Of a sheet, between the margins.</summary>
    internal long UsableHeight => Height!.Value.Micrometres - Ends;

    public static Stock Roll(Length width, Margins margins = default, Length gutter = default) => new(width, null, margins, gutter);

    public static Stock Sheet(Length width, Length height, Margins margins = default, Length gutter = default) =>
        new(width, height, margins, gutter);
}

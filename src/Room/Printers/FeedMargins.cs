using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Printers;

/// <summary>What a printer cannot print along the edges of paper that is fed one way.</summary>
public sealed class FeedMargins
{
    public required PrinterCode Printer { get; init; }

    public required Feed Feed { get; init; }

    public Length Left { get; set; }

    public Length Right { get; set; }

    /// <summary>At the edge that goes in first.</summary>
    public Length Lead { get; set; }

    public Length Tail { get; set; }

    public Layout.Margins Margins => new(Left, Right, Lead, Tail);

    /// <summary>What holds until somebody said it for a way of feeding: the printer's own margin on sheets, none on a roll.</summary>
    public static Layout.Margins Usual(Printer printer, Feed feed) =>
        feed is Feed.Roll ? Layout.Margins.None : new(printer.Margin, printer.Margin, printer.Margin, printer.Margin);
}

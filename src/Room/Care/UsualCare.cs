using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Care;

/// <summary>The rounds most rooms keep. Intervals and steps are common practice, no source; the room edits them.</summary>
public static class UsualCare
{
    private const string AskTheMaker = "Do it as the printer's own sheet says.";

    /// <summary>What is done once for the whole room.</summary>
    /// <param name="from">The number of the first; the others follow.</param>
    public static IReadOnlyList<CareTask> OfTheRoom(int from) =>
    [
        New(from, "End of day", null, 1, new(17, 0), WasteCause.Curl, "",
            "Trays emptied, paper back in its own box.", "Boxes closed, flat, with their labels to the front.", "Rolls taken up and covered.", "Covers of the printers shut."),
        New(from + 1, "Brush the art papers", null, 1, new(8, 30), WasteCause.Dust,
            "A pressurised duster is flammable and never points at eyes.",
            "Today's cotton, canvas and baryta sheets brushed, outside the printer.", "Lint off the edges of canvas rolls.", "Table wiped where paper is laid."),
    ];

    /// <summary>What is done for each printer.</summary>
    /// <param name="printer">Which.</param>
    /// <param name="from">The number of the first; the others follow.</param>
    public static IReadOnlyList<CareTask> Of(PrinterCode printer, int from) =>
    [
        New(from, "Nozzle check", printer, 1, new(8, 30), WasteCause.Nozzle, "", "Check printed.", "Looked through for gaps under good light.", "Only an ink that has a gap cleaned, and checked again."),
        New(from + 1, "Clean platen and rollers", printer, 7, null, WasteCause.HeadStrike,
            $"Switch it off first; keep fingers and cloth from the head. {AskTheMaker}",
            "Switched off.", "Fibres and ink off the platen.", "Feed rollers wiped.", "Paper path free of scraps."),
        New(from + 2, "Look at the waste ink", printer, 30, null, null,
            $"Wear gloves. Waste ink goes where local rules send it, never down a drain. {AskTheMaker}",
            "Level read.", "A new tank in the house when this one is three quarters full."),
    ];

    private static CareTask New(int number, string name, PrinterCode? printer, int every, TimeOnly? at, WasteCause? against, string caution, params string[] steps) => new()
    {
        Number = number,
        Name = name,
        Printer = printer,
        EveryDays = every,
        At = at,
        Against = against,
        Caution = caution,
        Steps = string.Join('\n', steps),
    };
}

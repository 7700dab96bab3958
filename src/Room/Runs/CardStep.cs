using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Runs;

/// <summary>One step of a run card: what the hands do, and how.</summary>
public sealed record CardStep(string Do, string How = "");

/// <summary>What the steps of a run follow from.</summary>
/// <param name="Paper">The paper, whose own feed goes before its class's usual one.</param>
/// <param name="Rule">What its class asks for.</param>
/// <param name="Format">The size it comes in.</param>
/// <param name="Printer">The printer it goes through.</param>
/// <param name="Condition">The media setting, resolution and black the profile holds for.</param>
/// <param name="Lot">The lot it is drawn from.</param>
/// <param name="Needs">Sheets, or mm of roll.</param>
/// <param name="ChangeBlack">Whether another black is in the printer now.</param>
/// <param name="Cuts">How many cuts follow.</param>
public sealed record CardFacts(
    Paper Paper, ClassRule Rule, Format Format, Printer Printer, PrintingCondition Condition, LotCode Lot, long Needs,
    bool ChangeBlack, int Cuts);

/// <summary>The order of work of a run, from the black to the knife.</summary>
public static class CardSteps
{
    public static IReadOnlyList<CardStep> Of(CardFacts facts)
    {
        var steps = new List<CardStep>();
        if (facts.ChangeBlack)
        {
            steps.Add(Black(facts.Printer, facts.Condition.Black));
        }

        steps.Add(Take(facts));
        steps.AddRange(HandlingAdvice.Before(facts.Rule));
        steps.Add(HandlingAdvice.Feed(facts.Paper.FeedFrom(facts.Format.IsRoll), Edge(facts.Format)));
        steps.Add(new("Print with no colour management in the driver", Settings(facts.Condition)));
        steps.Add(Dry(facts.Paper.DryingHours, facts.Cuts));
        return steps;
    }

    private static CardStep Black(Printer printer, BlackInk black)
    {
        var (minutes, ml) = black is BlackInk.Matte ? (printer.MinutesToMatte, printer.MlToMatte) : (printer.MinutesToPhoto, printer.MlToPhoto);
        return new(
            $"Put {HandlingAdvice.BlackWords(black)} in",
            printer.BlacksShareALine
                ? $"At the panel.{(minutes > 0 ? $" About {minutes:0.#} minutes and {ml:0.#} ml of ink." : "")} Then a nozzle check on plain paper."
                : "Both blacks are in this printer: the media setting chooses it. Look at the panel before you print.");
    }

    private static CardStep Take(CardFacts facts) => facts.Format.IsRoll
        ? new(
            $"Put the roll of lot {facts.Lot} on",
            $"{facts.Needs / 1000.0:0.##} m are needed. The leading edge is cut square, and lies flat: paper that does not is not printed.")
        : new(
            $"Take {facts.Needs} {(facts.Needs == 1 ? "sheet" : "sheets")} of lot {facts.Lot}, and close the box",
            "Look along each sheet: paper that does not lie flat is not printed. Flatten it first, or take another.");

    private static string Edge(Format format) => format.IsRoll ? "" : $"The short edge ({format.Width.Millimetres:0.#} mm) first.";

    private static string Settings(PrintingCondition condition) =>
        $"Scale 100 %, {condition.Ppi} ppi{(condition.MediaSetting.Length > 0 ? $", media setting “{condition.MediaSetting}”" : "")}. The file is already in the paper’s own colours.";

    private static CardStep Dry(double hours, int cuts)
    {
        var then = cuts == 0 ? "" : $", then cut: {cuts} {(cuts == 1 ? "cut" : "cuts")}, below";
        return hours > 0
            ? new($"Leave it flat for {Time(hours)}{then}", "Apart from other prints: do not stack, interleave, frame or coat it before, and do not touch the blacks.")
            : new(cuts == 0 ? "It may be stacked at once" : $"Cut at once: {cuts} {(cuts == 1 ? "cut" : "cuts")}, below");
    }

    private static string Time(double hours) => hours < 2 ? $"{hours * 60:0} minutes" : $"{hours:0.#} hours";
}

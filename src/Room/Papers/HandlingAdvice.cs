using Goodsheet.Room.Printers;

namespace Goodsheet.Room.Papers;

/// <summary>What the keeper does with their hands before and while a paper is printed.</summary>
public static class HandlingAdvice
{
    public static string FeedWords(Feed feed) => feed switch
    {
        Feed.Stack => "Stack feed: fan the sheets and load them together.",
        Feed.TwoOrThree => "Load two or three sheets at a time, and wait for each before the next.",
        Feed.OneByOne => "Feed one by one through the art path, flat and straight.",
        Feed.Roll => "From the roll: check the leading edge is cut square and taped to nothing.",
        _ => throw new ArgumentOutOfRangeException(nameof(feed)),
    };

    public static string BlackWords(BlackInk black) => black switch
    {
        BlackInk.Photo => "photo black",
        BlackInk.Matte => "matte black",
        BlackInk.Dye => "the dye set's one black",
        _ => throw new ArgumentOutOfRangeException(nameof(black)),
    };

    public static string ClassWords(PaperClass paperClass) => paperClass switch
    {
        PaperClass.SmoothFineArt => "smooth fine art",
        PaperClass.TexturedFineArt => "textured fine art",
        _ => paperClass.ToString().ToLowerInvariant(),
    };

    /// <summary>The steps for a run card, in order.</summary>
    public static IReadOnlyList<string> Steps(Paper paper, ClassRule rule, bool fromRoll)
    {
        var steps = rule.Handling.Split('\n', StringSplitOptions.RemoveEmptyEntries).ToList();
        steps.Insert(0, "Paper that does not lie flat is not printed: flatten it first, or take another sheet.");
        steps.Add(FeedWords(fromRoll ? Feed.Roll : paper.Feed));
        steps.Add(paper.DryingHours > 0
            ? $"Leave prints {paper.DryingHours:0.#} h to dry before they are stacked, framed or packed."
            : "Prints may be stacked at once.");
        return steps;
    }

    /// <summary>Where the work can hurt somebody. The makers' sheets and local rules go first.</summary>
    public static IReadOnlyList<string> Cautions(ClassRule rule, bool fromRoll, bool cut)
    {
        var cautions = new List<string>();
        if (cut)
        {
            cautions.Add("Blades: use the guard, cut away from the hand that holds, and close the blade when you put it down.");
        }

        if (fromRoll)
        {
            cautions.Add("Rolls are heavy: two people lift a full one, and nobody lets it rest on the floor.");
        }

        if (rule.BrushBeforeFeeding)
        {
            cautions.Add("Brush by hand. A pressurised duster is flammable and never points at eyes or into a running printer.");
        }

        return cautions;
    }

    /// <summary>A remark when this ink on this paper is a poor match; none when it is fine.</summary>
    public static string? InkRemark(ClassRule rule, InkKind inks) => rule.PigmentBronzes && inks is InkKind.Pigment
        ? "Pigment ink dulls and bronzes a high gloss: print it with dye, or coat it."
        : null;
}

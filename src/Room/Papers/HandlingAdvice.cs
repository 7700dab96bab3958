using Goodsheet.Room.Printers;
using Goodsheet.Room.Runs;

namespace Goodsheet.Room.Papers;

/// <summary>What the keeper does with their hands before and while a paper is printed.</summary>
public static class HandlingAdvice
{
    /// <summary>The way of feeding, in few words: "a stack together".</summary>
    public static string FeedWords(Feed feed) => feed switch
    {
        Papers.Feed.Stack => "a stack together",
        Papers.Feed.TwoOrThree => "two or three at a time",
        Papers.Feed.OneByOne => "one by one, art path",
        Papers.Feed.Roll => "from the roll",
        _ => throw new ArgumentOutOfRangeException(nameof(feed)),
    };

    public static CardStep Feed(Feed feed, string edge) => feed switch
    {
        Papers.Feed.Stack => new("Fan the sheets and load them together", Sentences("Single-sided production paper feeds as a stack.", edge)),
        Papers.Feed.TwoOrThree => new("Load two or three sheets at a time", Sentences("Coated on both sides they cling: wait until they are through, then load the next.", edge)),
        Papers.Feed.OneByOne => new("Feed one by one, through the art path", Sentences("Flat and straight, the coated side towards the head; wait for each before the next.", edge)),
        Papers.Feed.Roll => new("Feed from the roll", "Pull the slack out by hand and let the printer take it straight."),
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

    /// <summary>What a class asks for before a sheet goes in: its own handling, a line each, and the brush.</summary>
    public static IReadOnlyList<CardStep> Before(ClassRule rule)
    {
        var steps = rule.Handling.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(line => new CardStep(line)).ToList();
        if (rule.BrushBeforeFeeding)
        {
            steps.Add(new(
                "Brush it before feeding",
                "A soft brush, from the middle outward, away from the printer: loose fibre and dust end under the head."));
        }

        return steps;
    }

    /// <summary>How a paper is handled and fed, for its own page.</summary>
    public static IReadOnlyList<CardStep> Of(Paper paper, ClassRule rule) =>
    [
        new("Print it only if it lies flat", "Flatten it first, or take another sheet."),
        .. Before(rule),
        Feed(paper.Feed, ""),
        new(paper.DryingHours > 0 ? $"Leave prints {paper.DryingHours:0.#} h to dry before they are stacked, framed or packed" : "Prints may be stacked at once"),
    ];

    /// <summary>Where the work can hurt somebody. The makers' sheets and local rules go first.</summary>
    public static IReadOnlyList<Caution> Cautions(ClassRule rule, bool fromRoll, bool cut)
    {
        var cautions = new List<Caution>();
        if (cut)
        {
            cautions.Add(new("Blade.", "Guard down, fingers behind the rule, cut away from the hand that holds. Cover the blade when you put it down."));
        }

        if (fromRoll)
        {
            cautions.Add(new("A full roll is heavy.", "Two people lift it, and nobody lets it rest on the floor or on a hand."));
        }

        if (rule.BrushBeforeFeeding)
        {
            cautions.Add(new("Brush by hand.", "A pressurised duster is flammable and cold: never into eyes, never into a running printer. The maker’s sheet and local rules go first."));
        }

        return cautions;
    }

    /// <summary>A remark when this ink on this paper is a poor match; none when it is fine.</summary>
    public static string? InkRemark(ClassRule rule, InkKind inks) => rule.PigmentBronzes && inks is InkKind.Pigment
        ? "Pigment ink dulls and bronzes a high gloss: print it with dye, or give it a coat."
        : null;

    private static string Sentences(string first, string second) => second.Length == 0 ? first : $"{first} {second}";
}

/// <summary>A warning where the work can hurt: what, and what to do with the hands.</summary>
public sealed record Caution(string What, string How);

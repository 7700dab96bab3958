namespace Goodsheet.Room.Papers;

/// <summary>What a new room starts from: the trade's common practice for each class of paper. The room edits it.</summary>
public static class TradeRules
{
    public static IReadOnlyList<ClassRule> New() =>
    [
        new()
        {
            Class = PaperClass.Gloss,
            Coat = Coat.Shiny,
            PigmentBronzes = true,
            LeastDMax = 2.0,
            UsualFeed = Feed.Stack,
            GoodAt = "Deep blacks and the most colour. At its best from a dye printer.",
            BadAt = "Shows fingerprints, reflections and scratches. Pigment ink dulls it and bronzes.",
            Handling = "Touch the edges only.",
        },
        new()
        {
            Class = PaperClass.Satin,
            Coat = Coat.Shiny,
            LeastDMax = 1.9,
            UsualFeed = Feed.Stack,
            GoodAt = "Everyday photographs: deep blacks without mirror reflections.",
            BadAt = "Looks like a minilab print to some clients.",
            Handling = "Touch the edges only.",
        },
        new()
        {
            Class = PaperClass.Pearl,
            Coat = Coat.Shiny,
            LeastDMax = 1.9,
            UsualFeed = Feed.Stack,
            GoodAt = "Portraits and weddings: rich, and forgiving to handle.",
            BadAt = "Its grain shows in smooth skies.",
            Handling = "Touch the edges only.",
        },
        new()
        {
            Class = PaperClass.Matte,
            Coat = Coat.Dull,
            LeastDMax = 1.4,
            UsualFeed = Feed.TwoOrThree,
            GoodAt = "Proofs, cards and work seen under glass. No reflections.",
            BadAt = "Weaker blacks and less colour; scuffs easily.",
            Handling = "Mark which side is coated.\nDo not rub the printed side.",
        },
        new()
        {
            Class = PaperClass.SmoothFineArt,
            Coat = Coat.Dull,
            WarmBaseIsFine = true,
            BrushBeforeFeeding = true,
            LeastDMax = 1.4,
            UsualFeed = Feed.OneByOne,
            GoodAt = "Limited editions and black and white: a quiet surface that lasts.",
            BadAt = "Weaker blacks than a shiny coat; fibres and dust fall off it.",
            Handling = "Wear cotton gloves.",
        },
        new()
        {
            Class = PaperClass.TexturedFineArt,
            Coat = Coat.Dull,
            WarmBaseIsFine = true,
            BrushBeforeFeeding = true,
            LeastDMax = 1.3,
            UsualFeed = Feed.OneByOne,
            GoodAt = "Reproductions of paintings and drawings: the surface speaks.",
            BadAt = "Fine detail sinks into the texture; the head needs a wider gap.",
            Handling = "Wear cotton gloves.\nWiden the platen gap.",
        },
        new()
        {
            Class = PaperClass.Baryta,
            Coat = Coat.Shiny,
            WarmBaseIsFine = true,
            BrushBeforeFeeding = true,
            LeastDMax = 2.0,
            UsualFeed = Feed.OneByOne,
            GoodAt = "Black and white with the deepest blacks, and the look of a darkroom print.",
            BadAt = "Curls in dry air, scratches, and shows gloss differential.",
            Handling = "Wear cotton gloves.\nFlatten the sheet under weight if it curls.",
        },
        new()
        {
            Class = PaperClass.Canvas,
            Coat = null,
            WarmBaseIsFine = true,
            BrushBeforeFeeding = true,
            LeastDMax = 1.3,
            UsualFeed = Feed.Roll,
            GoodAt = "Large work on stretchers, without glass.",
            BadAt = "No fine detail; the coat cracks at the fold unless it has dried.",
            Handling = "Vacuum lint off the roll's edge.\nWiden the platen gap.",
        },
    ];

    /// <summary>The blacks a coat takes. The wrong one prints weak, greyish blacks.</summary>
    public static BlackInk BlackFor(Coat coat) => coat is Coat.Shiny ? BlackInk.Photo : BlackInk.Matte;
}

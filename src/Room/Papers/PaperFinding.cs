using Goodsheet.Colour.Papers;

namespace Goodsheet.Room.Papers;

/// <summary>What is wrong with a print or a paper, as a chart shows it.</summary>
public enum PaperFault
{
    WrongBlack = 1,
    WrongSide = 2,
    TooMuchInk = 3,
    Aged = 4,
}

/// <summary>A fault with its evidence and what to do.</summary>
/// <param name="Fault">Which.</param>
/// <param name="Evidence">What was seen, with its number.</param>
/// <param name="Do">What to do about it.</param>
public sealed record PaperFinding(PaperFault Fault, string Evidence, string Do)
{
    // All limits here are the room's own, from what charts of right and wrong prints show; no standard has any.
    private const double WeakSolids = 0.75;      // of what the paper held before: no wrong black takes so much from pure colours
    private const double LeastSolids = 50;       // C*ab: coated papers hold 70 and more, a bare back about 40
    private const double BlackLost = 0.2;        // of D-max, against the paper's own earlier reading: printers repeat to .03
    private const double Reverses = 1;           // L*: a texture of the model is under this
    private const double MottledDarks = 1.2;     // dE00 between repeats; a sound print repeats to .2 to .4
    private const double Yellowed = 1;           // b*
    private const double BrightnessGone = 1.5;   // of blue brightness

    /// <summary>Looks through a chart's figures.</summary>
    /// <param name="now">The chart.</param>
    /// <param name="rule">Of the paper's class.</param>
    /// <param name="earlier">The same paper printed earlier the same way; none where it is the first.</param>
    /// <param name="anotherLot">Whether the earlier chart was printed on another lot.</param>
    public static IReadOnlyList<PaperFinding> Of(PaperFigures now, ClassRule rule, PaperFigures? earlier = null, bool anotherLot = false)
    {
        var found = new List<PaperFinding>();
        var weakSolids = now.Solids is { } solids && (earlier?.Solids is { } before ? solids < before * WeakSolids : solids < LeastSolids);
        var weakBlack = now.Solids is not null && (now.DMax < rule.LeastDMax || now.DMax < earlier?.DMax - BlackLost);
        var held = earlier is { } e && e.DMax >= rule.LeastDMax ? $"it had {e.DMax:0.00} before" : $"{HandlingAdvice.ClassWords(rule.Class)} reaches {rule.LeastDMax:0.0} and more";
        if (weakSolids)
        {
            found.Add(new(PaperFault.WrongSide, $"All colours are weak: the pure ones have a chroma of {now.Solids:0}, and black a density of {now.DMax:0.00}; {held}.", "The uncoated side was printed, or it is another paper. Turn the sheet and print again."));
        }
        else if (weakBlack)
        {
            found.Add(new(PaperFault.WrongBlack, $"The darkest patch has a density of {now.DMax:0.00}; {held}. The pure colours are as strong as they should be.", Black(rule)));
        }

        if (now.StepsBack > Reverses || (now.Grain > MottledDarks && !weakSolids))
        {
            found.Add(new(PaperFault.TooMuchInk,
                now.StepsBack > Reverses ? $"With more ink the print gets lighter again, by {now.StepsBack:0.0} L*." : $"Patches printed alike differ by {now.Grain:0.0} dE00: the ink stands in pools.",
                "Take a media setting with less ink, and print again. What lies beyond the turning point is ink thrown away."));
        }

        if (anotherLot && earlier is { White: { } was } && now.White is { } white && (white.B - was.B > Yellowed || earlier.Brightness - now.Brightness > BrightnessGone))
        {
            found.Add(new(PaperFault.Aged, $"The bare paper is yellower than the earlier lot: b* {white.B:0.0} against {was.B:0.0}{(earlier.Brightness - now.Brightness is { } gone ? $", blue brightness {gone:0.0} less" : "")}.", "Look at its date and how it was kept. Use it for tests, or make a profile for this lot."));
        }

        return found;
    }

    private static string Black(ClassRule rule) => rule.Coat switch
    {
        Coat.Shiny => "Photo black belongs on it: see which black is loaded, and the media setting.",
        Coat.Dull => "Matte black belongs on it: see which black is loaded, and the media setting.",
        _ => "See which black is loaded: the one for its coat.",
    };
}

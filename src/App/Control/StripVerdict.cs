using Goodsheet.Colour.Control;
using Goodsheet.Room.Control;

namespace Goodsheet.App.Control;

/// <summary>What a strip says, as it is stored and shown. Differences are dE00.</summary>
/// <param name="Patches">Of the strip that are in the chart.</param>
/// <param name="Mean">How far they stand from the chart's readings.</param>
/// <param name="Largest">The farthest.</param>
/// <param name="Cause">What explains it best.</param>
/// <param name="Chance">Of that cause, 0 to 1.</param>
/// <param name="Other">The next likeliest.</param>
/// <param name="Explained">How much of the shift the cause explains, 0 to 1.</param>
/// <param name="Tells">Whether the evidence suffices to name a cause.</param>
/// <param name="Sure">Whether it may be said without "probably".</param>
/// <param name="CanCorrect">Whether the chart can be corrected from this strip.</param>
/// <param name="Before">Mean of the strip from the chart.</param>
/// <param name="After">Mean of the strip from the corrected chart.</param>
/// <param name="Change">Mean change over the whole chart.</param>
/// <param name="BlackThen">Visual density of the black patch in the chart; none without one.</param>
/// <param name="BlackNow">The same in the strip.</param>
/// <param name="WrongBlack">It was another black.</param>
/// <param name="White">How far bare paper stands from the chart's; none without such a patch.</param>
/// <param name="Twice">It was converted once more on its way to the paper, its numbers being taken for this space; none if it was not.</param>
/// <param name="P95">95 % of the patches stand at most so far from the chart's readings; none in strips taken by earlier versions.</param>
/// <param name="CurvesMean">What a curve for each ink would leave, on average.</param>
/// <param name="CurvesP95">The same of 95 % of the patches.</param>
/// <param name="AfterP95">What the best correction from this strip leaves, of 95 % of the patches.</param>
/// <param name="Greys">The grey that moved most in a* and b* together; none without greys.</param>
public sealed record StripVerdict(
    int Patches, double Mean, double Largest, DriftCause Cause, double Chance, DriftCause Other, double Explained, bool Tells, bool Sure,
    bool CanCorrect, double Before, double After, double Change, double? BlackThen, double? BlackNow, bool WrongBlack,
    double? White = null, double? Greys = null, string? Twice = null,
    double? P95 = null, double? CurvesMean = null, double? CurvesP95 = null, double? AfterP95 = null)
{
    /// <summary>Nothing drifted: the strip was printed otherwise than it should have been.</summary>
    public bool PrintedWrong => WrongBlack || Twice is not null;

    public string InWords => Twice is not null
        ? $"Its colours were converted twice: something on the way took the numbers for {Twice} and converted them again."
        : WrongBlack
        ? $"The black patch has a density of {BlackNow:0.00}, in the chart it had {BlackThen:0.00}, while the other inks stand: it is the wrong black, or the wrong side."
        : Cause is DriftCause.Nothing
        ? "It has not moved by more than noise: leave it alone."
        : Tells ? $"{(Sure ? "Moved" : "Probably moved")}: {Named(Cause)}, which explains {100 * Explained:0} % of it."
        : $"Moved, but one strip cannot tell why: {Named(Cause)} or {Named(Other)}. Clean the head and the white tile, print another.";

    public string Advice => Twice is not null ? "Switch colour management off in the driver, the system and the queue, and print the strip again. Nothing is to be corrected."
        : WrongBlack ? "Put the right black in, see which side is coated, and print the strip again. Nothing is to be corrected."
        : CanCorrect
        ? $"Correcting the chart from this strip brings {Before:0.00} to {After:0.00}."
        : $"Correcting from this strip would bring {Before:0.00} to {After:0.00}: not enough to be worth it, so nothing is changed.";

    public IReadOnlyList<Tolerance.Held> Hold(Tolerance tolerance) => tolerance.Hold(Mean, Largest, White, Greys);

    public static string Named(DriftCause cause) => cause switch
    {
        DriftCause.Nothing => "nothing beyond noise",
        DriftCause.Paper => "the paper's white",
        DriftCause.AllInks => "all inks alike",
        DriftCause.Instrument => "everything alike, as by a dirty white tile",
        _ => $"the {cause.ToString().ToLowerInvariant()} ink alone",
    };

    /// <summary>What is done first about a cause.</summary>
    public static string FirstStep(DriftCause cause) => cause switch
    {
        DriftCause.Nothing => "Leave it alone.",
        DriftCause.Paper => "Look whether the lot is another or the paper lay in light, and read its bare white again.",
        DriftCause.AllInks => "See that the media setting and the air are as they were, then print and read one more strip.",
        DriftCause.Instrument => "Clean the white tile, calibrate, and read the same strip again.",
        _ => "Check the nozzles, clean the head of that ink, then print and read one more strip.",
    };
}

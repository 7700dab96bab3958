using Goodsheet.Colour.Papers;
using Goodsheet.Colour.Whiteness;

namespace Goodsheet.Room.Papers;

/// <summary>What a paper's figures mean, in words a keeper can pass on to a client.</summary>
/// <param name="White">Of its white.</param>
/// <param name="Brightener">How much of it is brightener; none until it was read with and without ultraviolet.</param>
/// <param name="UvShift">b* without ultraviolet minus b* with it.</param>
/// <param name="Permanence">What that means for how long it stays so, and for walls without ultraviolet.</param>
public sealed record PaperVerdict(string White, Brightener? Brightener, double? UvShift, string Permanence)
{
    // Base white in words: ours, no standard has a band for "clean".
    private const double Warm = 1.5;      // b*
    private const double Cold = -2.5;     // b*
    private const double FromUv = 3;      // b* that only ultraviolet takes away
    private const double ToSpeakOf = 1;   // b*: under this nobody sees it, side by side

    public const string CleanOnlyUnderUv = "clean only under ultraviolet";

    /// <summary>Judges a paper.</summary>
    /// <param name="seen">Read with ultraviolet where it was, else as it was.</param>
    /// <param name="withoutUv">Read under M2; none where it was not.</param>
    public static PaperVerdict Of(PaperFigures seen, PaperFigures? withoutUv)
    {
        var found = withoutUv is null ? null : seen.BrightenerAgainst(withoutUv);
        var word = Word(found);
        return new(WhiteWord(seen, found), word, found?.Index, PermanenceOf(word));
    }

    private static string WhiteWord(PaperFigures seen, OpticalBrightener? found) => (seen.White?.B, found?.Index) switch
    {
        (null, _) => "not measured: the chart has no bare patch",
        ( < Warm, > FromUv) => CleanOnlyUnderUv,
        ( > Warm, _) => "warm",
        ( < Cold, _) => "cold",
        _ => "clean",
    };

    private static Brightener? Word(OpticalBrightener? found) => found switch
    {
        null => null,
        { Index: < ToSpeakOf } => Papers.Brightener.None,
        { Class: BrightenerClass.Faint } => Papers.Brightener.Faint,
        { Class: BrightenerClass.Low } => Papers.Brightener.Low,
        { Class: BrightenerClass.Moderate } => Papers.Brightener.Moderate,
        _ => Papers.Brightener.High,
    };

    // What is said of brightener here is common knowledge of the trade; no source.
    private static string PermanenceOf(Brightener? word) => word switch
    {
        null => "Read it once more without ultraviolet (M2) and the brightener can be told.",
        Papers.Brightener.None => "No brightener to speak of: it looks the same behind glass that keeps ultraviolet out, and there is nothing to fade from its white.",
        Papers.Brightener.Faint => "Little brightener: in a gallery without ultraviolet it turns warmer by a touch, which few will see.",
        Papers.Brightener.Low => "Some brightener: behind glass that keeps ultraviolet out it is a little warmer, and over the years in light it goes that way for good.",
        _ => "Much brightener: in a gallery without ultraviolet the paper is visibly warmer than in the print room, and brightener wears out in light. Not for work that is sold as lasting; show it under the light it will hang in.",
    };
}

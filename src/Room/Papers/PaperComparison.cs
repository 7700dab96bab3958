using System.Globalization;
using Goodsheet.Colour.Papers;

namespace Goodsheet.Room.Papers;

/// <summary>Which of several papers serves a purpose best, and why.</summary>
/// <param name="Purpose">As a keeper would ask for it.</param>
/// <param name="Best">By its place in the list.</param>
/// <param name="Reason">With both numbers: its own and the next one's.</param>
public sealed record PaperComparison(string Purpose, int Best, string Reason)
{
    /// <summary>Hues of CIELAB in six parts, in degrees, and the word of each.</summary>
    public static IReadOnlyList<(string Word, double From, double To)> Hues { get; } =
        [("reds", 0, 60), ("yellows", 60, 120), ("greens", 120, 180), ("cyans", 180, 240), ("blues", 240, 310), ("purples", 310, 360)];

    private const double DarkUpTo = 35; // L*

    /// <summary>Judges papers side by side; a purpose is left out where fewer than two papers have the figure.</summary>
    public static IReadOnlyList<PaperComparison> Of(IReadOnlyList<(PaperFigures Figures, PaperVerdict Verdict)> papers)
    {
        var all = new List<PaperComparison?>
        {
            Most(papers, "Night scenes, deep shadows", p => p.Figures.DMax, "D-max", "0.00"),
            Most(papers, "Colour above all", p => p.Figures.Volume, "gamut", "N0"),
            Least(papers, "Black and white from the plain driver", p => p.Figures.GreyChroma, "tint of its greys, C*", "0.0"),
            Least(papers, "Galleries without ultraviolet, work that is to last", p => p.Verdict.UvShift is { } shift ? Math.Max(0, shift) : null, "b* that hangs on ultraviolet", "0.0"),
            Least(papers, "A white neither warm nor cold, under the light it was read in", p => p.Figures.White is { } w ? w.Chroma : null, "chroma of the white", "0.0"),
            Most(papers, "Snow, paper that shines", p => p.Figures.White?.L, "L* of the white", "0.0"),
            Least(papers, "Smooth skies and skin", p => p.Figures.Grain, "dE00 between patches printed alike", "0.00"),
            Most(papers, "Dark colours", p => p.Figures.Reach?.VolumeOf(0, 360, 0, DarkUpTo), "gamut under L* 35", "N0"),
        };
        all.AddRange(Hues.Select(h => Most(papers, $"Strong {h.Word}", p => p.Figures.Reach?.VolumeOf(h.From, h.To), $"gamut in the {h.Word}", "N0")));
        return [.. all.OfType<PaperComparison>()];
    }

    private static PaperComparison? Least(
        IReadOnlyList<(PaperFigures Figures, PaperVerdict Verdict)> papers, string purpose, Func<(PaperFigures Figures, PaperVerdict Verdict), double?> figure, string word, string form) =>
        Ranked(papers, purpose, figure, word, form, 1);

    private static PaperComparison? Most(
        IReadOnlyList<(PaperFigures Figures, PaperVerdict Verdict)> papers, string purpose, Func<(PaperFigures Figures, PaperVerdict Verdict), double?> figure, string word, string form) =>
        Ranked(papers, purpose, figure, word, form, -1);

    private static PaperComparison? Ranked(
        IReadOnlyList<(PaperFigures Figures, PaperVerdict Verdict)> papers, string purpose, Func<(PaperFigures Figures, PaperVerdict Verdict), double?> figure, string word, string form, int sign)
    {
        var ranked = papers.Select((p, i) => (Value: figure(p), I: i)).Where(x => x.Value is not null).OrderBy(x => sign * x.Value!.Value).ToList();
        if (ranked.Count < 2)
        {
            return null;
        }

        string Said(double? v) => v!.Value.ToString(form, CultureInfo.CurrentCulture);
        var alike = Said(ranked[0].Value) == Said(ranked[1].Value);
        return new(purpose, ranked[0].I, alike ? $"{word} {Said(ranked[0].Value)}; the next is no different" : $"{word} {Said(ranked[0].Value)}, the next {Said(ranked[1].Value)}");
    }
}

using System.Globalization;
using Goodsheet.Colour.Control;

namespace Goodsheet.App.Control;

/// <summary>One thing that can be done about a strip, and what it brings.</summary>
/// <param name="What">To do.</param>
/// <param name="Brings">With its numbers, dE00.</param>
/// <param name="IsAdvised">It is what the strip asks for.</param>
/// <param name="Corrects">It can be had at once: the next version of the profile.</param>
public sealed record StripRemedy(string What, string Brings, bool IsAdvised, bool Corrects = false)
{
    // Two readings of one chart in one house differ by .35 in 95 % of patches (real gloss); a remedy that leaves twice that
    // leaves nothing that could be seen beside noise. Days of one real matte differ by .25 to .38 on average.
    private const double Noise95 = 0.35;
    private const string Days = "0.25 to 0.38";

    /// <summary>All that can be done, from the least work to the most.</summary>
    /// <param name="verdict">What the strip says.</param>
    /// <param name="moved">Whether the control chart, too, says that it has moved.</param>
    public static IReadOnlyList<StripRemedy> Of(StripVerdict verdict, bool moved)
    {
        if (verdict.PrintedWrong)
        {
            return [new(verdict.Advice, "Nothing drifted, so nothing is to be corrected.", true)];
        }

        var still = !moved || verdict.Cause is DriftCause.Nothing;
        var curves = verdict.CurvesP95 <= 2 * Noise95;
        var all = new List<StripRemedy>
        {
            new("Leave it alone", Say($"Prints stay {verdict.Mean:0.00} from the chart on average{Tail(verdict.P95)}."), still),
            new(
                StripVerdict.FirstStep(verdict.Cause is DriftCause.Nothing ? verdict.Other : verdict.Cause),
                Say($"Where {StripVerdict.Named(verdict.Cause is DriftCause.Nothing ? verdict.Other : verdict.Cause)} is the cause, about {verdict.Mean * Math.Sqrt(1 - Math.Clamp(verdict.Explained, 0, 1)):0.00} would be left."),
                !still),
        };
        if (verdict.CurvesMean is { } mean)
        {
            all.Add(new("A new tone curve for each ink, where the driver has them",
                Say($"Leaves {mean:0.00} on average{Tail(verdict.CurvesP95)}: {(curves ? "enough" : $"too much, {2 * Noise95:0.00} would be no more than noise")}."), false));
        }

        all.Add(new("Correct the profile from this strip",
            Say($"Brings {verdict.Before:0.00} to {verdict.After:0.00}{Tail(verdict.AfterP95)}: {(verdict.CanCorrect ? "worth it, if a second strip says the same" : "not enough to be worth it, so nothing would be changed")}."), !still && verdict.CanCorrect, !still && verdict.CanCorrect));
        all.Add(new("Print and read a new chart, and make the profile from it",
            $"Brings it to what two days differ by, {Days} on average, whatever the cause.", !still && !verdict.CanCorrect));
        return all;
    }

    private static string Tail(double? p95) => p95 is { } p ? string.Create(CultureInfo.CurrentCulture, $", {p:0.00} in 95 % of patches") : "";

    private static string Say(FormattableString words) => words.ToString(CultureInfo.CurrentCulture);
}

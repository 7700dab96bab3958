using System.Globalization;
using PdfSharp.Pdf;
using Goodsheet.App.Papers;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Papers;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Documents;

/// <summary>The paper page on A4: what a paper measured and what it is good for, to lie with its sample.</summary>
public static class PaperPages
{
    /// <param name="page">The paper.</param>
    /// <param name="proof">What its charts say; none where it was not measured.</param>
    /// <param name="made">When, in the room's own time.</param>
    public static Document Draw(ShowPaper.Page page, AssessPaper.Done? proof, DateTimeOffset made)
    {
        using var document = new PdfDocument();
        document.Info.Title = page.Paper.Name;
        var foot = $"{page.Paper.Name}. Paper page made {made.ToString("d MMM yyyy", CultureInfo.CurrentCulture)}";
        using (var flow = new Flow(document, foot, $"{page.Paper.Name}, continued"))
        {
            flow.Leaf.TypeFitted(page.Paper.Name, Flow.Left, flow.Y, Flow.Width, Face.Strong, 10, 5);
            flow.Y += 13;
            flow.Words($"{Sentence(HandlingAdvice.ClassWords(page.Paper.Class))}, {page.Paper.Grammage} g/m2, {HandlingAdvice.BlackWords(TradeRules.BlackFor(page.Paper.Coat))} or dye. {page.Rule.GoodAt}");
            flow.Rule(0.9);
            if (proof is null)
            {
                flow.Words("Nobody has measured this paper here.");
            }
            else
            {
                Measured(flow, proof);
            }

            Bench(flow, page.Bench);
            flow.Heading("Handling");
            foreach (var step in HandlingAdvice.Of(page.Paper, page.Rule))
            {
                flow.Words(step.How.Length > 0 ? $"{step.Do.TrimEnd('.')}: {step.How}" : step.Do);
            }

            flow.Words($"Not good at: {page.Rule.BadAt}");
            if (page.Profiles.Count > 0)
            {
                flow.Heading("Profiles");
                foreach (var profile in page.Profiles)
                {
                    flow.Words(Say($"{profile.Name}, version {profile.Version}: {profile.Standing.ToString().ToLowerInvariant()}{(profile.MeanError is { } e ? Say($", {e:0.00} dE00 on average") : "")}."));
                }
            }
        }

        return Document.Of(document, $"paper-{page.Paper.Code}.pdf");
    }

    private static void Measured(Flow flow, AssessPaper.Done proof)
    {
        foreach (var finding in proof.Findings)
        {
            flow.Note("Look at this first.", $"{finding.Evidence} {finding.Do}", hatched: true);
        }

        flow.Heading($"White: {proof.Verdict.White}");
        foreach (var light in proof.Conditions)
        {
            flow.Words(Say($"{light.Condition}: {Text(light.White!.Value)}{(light.Whiteness is { } w ? Say($", CIE whiteness {w:0}, tint {light.Tint:0.0}") : "")}."));
        }

        flow.Words(proof.Verdict.Permanence + (proof.Opacity is { } o ? Say($" Opacity {100 * o:0.0} %.") : ""));
        flow.Heading("Black and colours");
        var figures = proof.Figures;
        flow.Words(Say($"D-max {figures.DMax:0.00}, black at L* {figures.Darkest.L:0.0}.{(figures.Volume is { } v ? Say($" Gamut {v:N0} cubic L*a*b*{(figures.VolumeGiveOrTake is { } e ? $", give or take {e:N0}" : "")}.") : " The chart is too small to tell the gamut.")}"));
        if (figures.Reach is { } reach)
        {
            flow.Words(string.Join("; ", PaperComparison.Hues.Select(h => Say($"{h.Word} {reach.VolumeOf(h.From, h.To):N0}"))) + ".");
        }

        if (figures.GreyChroma is not null || figures.Grain is not null)
        {
            flow.Heading("Greys and grain before a profile");
            flow.Words(string.Join(" ", ((string?[])
            [
                figures.GreyChroma is { } c ? Say($"Greys are off by {c:0.0} C* on average.") : null,
                figures.Grain is { } g ? Say($"Patches printed alike differ by {g:0.00} dE00.") : null,
            ]).OfType<string>()));
        }

        if (proof.Drying is { } drying)
        {
            flow.Heading("Drying");
            flow.Words(string.Join("; ", drying.Readings.Select(r => Say($"{r.Moved.Value:0.00} dE00 after {r.Hours:0.##} h")))
                + (drying.MeasureAfter is { } after ? Say($". Measure after {(after < 1 ? Say($"{Math.Ceiling(60 * after):0} minutes") : Say($"{Math.Ceiling(after):0} h"))}.") : "."));
        }

        if (proof.Lots is { } lots)
        {
            flow.Heading("Against the lot before");
            flow.Words(Say($"White differs by {lots.White.Value:0.00} dE00: {lots.Answer switch { LotAnswer.Same => "the same", LotAnswer.StillHolds => "changed a little, the profile still holds", _ => "changed" }}."));
        }
    }

    private static void Bench(Flow flow, IReadOnlyList<BenchTest> tests)
    {
        if (tests.Count == 0)
        {
            return;
        }

        flow.Heading("Bench tests");
        foreach (var test in tests.GroupBy(t => t.Kind).Select(g => g.First()))
        {
            string[] said = [test.Value is { } v ? Say($"{v:0.##} {BenchTest.Unit(test.Kind)}") : "", test.Note, test.Verdict switch { BenchVerdict.Fine => "fine", BenchVerdict.TakeCare => "take care", _ => "no" }];
            flow.Words($"{BenchTest.Words(test.Kind)}: {string.Join(", ", said.Where(s => s.Length > 0))}.");
        }
    }

    private static string Text(Lab lab) => Say($"L* {lab.L:0.0}, a* {lab.A:0.0}, b* {lab.B:0.0}");

    private static string Sentence(string words) => char.ToUpper(words[0], CultureInfo.CurrentCulture) + words[1..];

    private static string Say(FormattableString words) => words.ToString(CultureInfo.CurrentCulture);
}

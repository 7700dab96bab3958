using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Settings;
using Goodsheet.App;
using Goodsheet.App.Papers;
using Goodsheet.Room.Papers;

namespace Goodsheet.Cli.Papers;

/// <summary><c>paper assess</c>: what a paper is, from charts on it.</summary>
public static class PaperVerb
{
    private static readonly Argument<string> Chart = new("FILE") { Description = "A chart measured with ultraviolet (M0 or M1)." };

    private static readonly Option<string?> UvExcluded = new("--uv-excluded") { Description = "The same chart without it (M2)." };

    private static readonly Option<string?> OverBlack = new("--over-black") { Description = "The same sheet read with black under it, for its opacity." };

    private static readonly Option<string?> OtherLot = new("--other-lot") { Description = "The same chart on an earlier lot." };

    private static readonly Option<PaperClass?> Class = new("--class") { Description = "Its class, to say what looks wrong." };

    private static readonly Option<double> Loss = new("--loss") { Description = "Mean dE00 that the strongest colours may lose.", DefaultValueFactory = _ => 1.5 };

    private static readonly Option<Finish> Stays = new("--finish") { Description = "How alike the finish must stay.", DefaultValueFactory = _ => Finish.SameCoat };

    public static Command Create()
    {
        var assess = new Command("assess", "Says what a paper is, from charts printed on it.") { Chart, UvExcluded, OverBlack, OtherLot, Class, Answer.Json };
        assess.SetAction(async (line, cancel) =>
        {
            var charts = new List<AssessPaper.Chart> { new(line.GetRequiredValue(Chart), Lot: "this") };
            if (line.GetValue(UvExcluded) is { } without)
            {
                charts.Add(new(without, Lot: "this"));
            }

            if (line.GetValue(OverBlack) is { } over)
            {
                charts.Add(new(over, Lot: "this", OverBlack: true));
            }

            if (line.GetValue(OtherLot) is { } earlier)
            {
                charts.Add(new(earlier, Lot: "earlier", Earlier: 1));
            }

            var rule = line.GetValue(Class) is { } known ? ChangeClassRule.Usual(known) : null;
            return await line.GiveAsync(
                await new AssessPaper().RunAsync(new(charts, rule, line.GetValue(UvExcluded) is not null), cancel), Figures, Says);
        });
        return new("paper", "Papers.") { assess, LineUp() };
    }

    private static Command LineUp()
    {
        var verb = new Command("line-up", "The fewest papers that could have taken the past year's work.") { Loss, Stays, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        verb.SetAction(async (line, cancel) =>
        {
            var (store, files) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            return await line.GiveAsync(
                await new ProposeLineUp(store, files, await store.ClockAsync(cancel)).RunAsync(new(line.GetValue(Loss), line.GetValue(Stays)), cancel),
                done => new { done.Prints, Kept = done.Kept.Select(Of), LeftOut = done.LeftOut.Select(Of), Untaken = done.Untaken.Select(p => p.Code.Value) },
                done => done.Prints == 0 ? "Nothing was ordered in the past year, so no paper has to earn its place yet." : string.Join('\n', (string[])
                [
                    $"{done.Kept.Count} papers take all {done.Prints} prints: {string.Join(", ", done.Kept.Select(k => k.Paper.Name))}.",
                    .. done.LeftOut.Select(l => l.Instead is { } i ? $"{l.Paper.Name}: {l.Prints} prints go to {i.Paper.Name} and lose {i.MeanLoss:0.0} dE00, {i.LargestLoss:0.0} at most." : $"{l.Paper.Name}: nothing was printed on it."),
                ]));
        });
        return verb;
    }

    private static object Of(ProposeLineUp.Line line) =>
        new { Paper = line.Paper.Code.Value, line.Prints, line.Measured, line.Profiles, line.Lots, Instead = line.Instead?.Paper.Code.Value, line.Instead?.MeanLoss, line.Instead?.LargestLoss, line.Year.Waste, line.Year.StockDays, line.Year.Left, line.Alone };

    private static object Figures(AssessPaper.Done done) => new
    {
        done.Figures.White,
        done.Figures.Darkest,
        done.Figures.DMax,
        done.Figures.Whiteness,
        done.Figures.Tint,
        done.Figures.Brightness,
        done.Verdict.UvShift,
        Brightener = done.Verdict.Brightener?.ToString(),
        InWords = done.Verdict.White,
        done.Verdict.Permanence,
        GamutVolume = done.Figures.Volume,
        GamutGiveOrTake = done.Figures.VolumeGiveOrTake,
        done.Figures.GreyChroma,
        done.Figures.Grain,
        done.Opacity,
        Findings = done.Findings.Select(f => new { Fault = f.Fault.ToString(), f.Evidence, f.Do }),
        OtherLot = done.Lots is { } lots ? new { White = lots.White.Value, Foretold = lots.Foretold.Mean.Value, Measured = lots.Measured?.Mean.Value, Answer = lots.Answer.ToString() } : null,
    };

    private static string Says(AssessPaper.Done done)
    {
        var (f, white) = (done.Figures, done.Figures.White!.Value);
        return string.Join('\n', ((string?[])
        [
            string.Create(CultureInfo.CurrentCulture, $"White: {done.Verdict.White} (L* {white.L:0.0}, a* {white.A:0.0}, b* {white.B:0.0}). D-max {f.DMax:0.00}."),
            f.Whiteness is { } w ? string.Create(CultureInfo.CurrentCulture, $"Whiteness {w:0}, tint {f.Tint:0.0}, brightness {f.Brightness:0}.") : null,
            $"Brightener: {done.Verdict.Brightener switch { null => "not known", Brightener.None => "none to speak of", { } b => b.ToString().ToLowerInvariant() }}. {done.Verdict.Permanence}",
            f.Volume is { } v ? string.Create(CultureInfo.CurrentCulture, $"Gamut {v:0} cubic dE*ab{(done.Figures.VolumeGiveOrTake is { } e ? $", give or take {e:0}" : "")}. Grey before profiling: {f.GreyChroma:0.0} C*.") : null,
            f.Grain is { } g ? string.Create(CultureInfo.CurrentCulture, $"Patches printed alike differ by {g:0.00} dE00.") : null,
            done.Opacity is { } o ? string.Create(CultureInfo.CurrentCulture, $"Opacity {100 * o:0.0} %.") : null,
            done.Lots is { } lots ? string.Create(CultureInfo.CurrentCulture, $"Against the other lot: white {lots.White.Value:0.00} dE00, prints by the white alone {lots.Foretold.Mean.Value:0.00}{(lots.Measured is { } m ? $", as measured {m.Mean.Value:0.00}" : "")}.") : null,
            .. done.Findings.Select(found => $"{found.Evidence} {found.Do}"),
        ]).OfType<string>());
    }
}

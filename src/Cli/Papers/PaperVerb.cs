using System.CommandLine;
using Goodsheet.App.Papers;

namespace Goodsheet.Cli.Papers;

/// <summary><c>paper assess</c>: what a paper is, from a chart on it.</summary>
public static class PaperVerb
{
    private static readonly Argument<string> Chart = new("FILE") { Description = "A chart measured with ultraviolet (M0 or M1)." };

    private static readonly Option<string?> UvExcluded = new("--uv-excluded") { Description = "The same chart without it (M2)." };

    public static Command Create()
    {
        var assess = new Command("assess", "Says what a paper is, from a chart printed on it.") { Chart, UvExcluded, Answer.Json };
        assess.SetAction(async (line, cancel) => await line.GiveAsync(
            await new AssessPaper().RunAsync(new(line.GetRequiredValue(Chart), line.GetValue(UvExcluded)), cancel),
            done => done,
            done => $"White: {done.InWords} (L* {done.White.L:0.0}, a* {done.White.A:0.0}, b* {done.White.B:0.0}). D-max {done.DMax:0.00}. "
                + $"Brightener: {done.Brightener?.ToString().ToLowerInvariant() ?? "not known"}."
                + $"{(done.Whiteness is { } w ? $" Whiteness {w:0}, tint {done.Tint:0.0}, brightness {done.Brightness:0}." : "")}{(done.GamutVolume is { } v ? $" Gamut {v:0} cubic dE*ab." : "")}"));
        return new("paper", "Papers.") { assess };
    }
}

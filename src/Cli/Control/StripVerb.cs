using System.CommandLine;
using Goodsheet.App.Control;

namespace Goodsheet.Cli.Control;

/// <summary><c>strip check</c>: whether a printing condition has moved, and why.</summary>
public static class StripVerb
{
    private static readonly Argument<string> Chart = new("CHART") { Description = "The chart its profile was made from, with spectra." };

    private static readonly Argument<string> Strip = new("STRIP") { Description = "The strip as read now, of patches of that chart." };

    public static Command Create()
    {
        var check = new Command("check", "Says whether a printing condition has moved, why, and what a correction would bring.") { Chart, Strip, Answer.Json };
        check.SetAction(async (line, cancel) => await line.GiveAsync(
            await new CheckStrip().RunAsync(new(line.GetRequiredValue(Chart), line.GetRequiredValue(Strip)), cancel),
            done => done,
            done => $"{done.Patches} patches, {done.Mean:0.00} dE00 on average, {done.Largest:0.0} at most. {done.InWords} {done.Advice}"));
        return new("strip", "Control strips.") { check };
    }
}

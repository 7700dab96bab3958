using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Profiles;

namespace Goodsheet.Cli.Profiles;

/// <summary><c>instrument compare</c>: how far two instruments differ on one chart.</summary>
public static class InstrumentVerb
{
    private static readonly Argument<string> First = new("FIRST") { Description = "The chart as one instrument read it." };

    private static readonly Argument<string> Second = new("SECOND") { Description = "The same chart as the other read it." };

    public static Command Create()
    {
        var compare = new Command("compare", "Says how far two instruments differ, from one chart that both have read.") { First, Second, Answer.Json };
        compare.SetAction(async (line, cancel) => await line.GiveAsync(
            await new CompareInstruments().RunAsync(new(line.GetRequiredValue(First), line.GetRequiredValue(Second)), cancel),
            done => new { Mean = done.Between.Mean.Value, P95 = done.Between.P95.Value, Largest = done.Between.Largest.Value, done.Between.Count, done.Lighter, done.Redder, done.Yellower, done.Noise },
            done => string.Create(CultureInfo.CurrentCulture, $"{done.Between.Count} patches: dE00 {done.Between.Mean.Value:0.00} on average, {done.Between.Largest.Value:0.00} at most. The second reads L* {done.Lighter:+0.00;-0.00}, a* {done.Redder:+0.00;-0.00}, b* {done.Yellower:+0.00;-0.00}.{(done.Noise is { } n ? $" One instrument alone repeats to {n:0.00}." : "")}")));
        return new("instrument", "Measuring instruments.") { compare };
    }
}

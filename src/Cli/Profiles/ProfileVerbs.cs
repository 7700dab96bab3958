using System.CommandLine;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.Cli.Profiles;

/// <summary><c>measurement read</c>, <c>profile make</c> and <c>profile verify</c>: without a room, on files alone.</summary>
public static class ProfileVerbs
{
    private static readonly Argument<string> Chart = new("FILE") { Description = "A measured chart: CGATS, ISO 28178 or CSV." };

    private static readonly Argument<string[]> Charts = new("FILE") { Description = "One or more charts of one condition.", Arity = ArgumentArity.OneOrMore };

    private static readonly Argument<string> Profile = new("PROFILE") { Description = "An ICC profile." };

    private static readonly Option<string> Out = new("--out") { Description = "Where to write the profile.", Required = true };

    private static readonly Option<int> Version = new("--version") { Description = "4, or 2 for old systems.", DefaultValueFactory = _ => 4 };

    private static readonly Option<int?> Grid = new("--grid") { Description = "Nodes along each side of the tables, 9 to 45." };

    public static Command Measurement()
    {
        var read = new Command("read", "Says what is in a measurement file and what looks misread.") { Chart, Answer.Json };
        read.SetAction(async (line, cancel) => await line.GiveAsync(
            await new ReadMeasurement().RunAsync(new(line.GetRequiredValue(Chart)), cancel),
            done => done,
            done => $"{done.Patches} patches ({done.Distinct} different), {done.Space}, {done.Condition}; {done.Suspects.Count} look misread.{string.Concat(done.Findings.Select(f => $"\n{f}"))}"));
        return new("measurement", "Measured charts.") { read };
    }

    public static Command Create()
    {
        var make = new Command("make", "Makes a profile from measured charts.") { Charts, Out, Version, Grid, Answer.Json };
        make.SetAction(MakeAsync);
        var verify = new Command("verify", "Judges a profile against a measured chart.") { Profile, Chart, Answer.Json };
        verify.SetAction(async (line, cancel) => await line.GiveAsync(
            await new VerifyProfile().RunAsync(new(line.GetRequiredValue(Profile), line.GetRequiredValue(Chart)), cancel),
            WorthRecord.Of, Words));
        return new("profile", "ICC profiles of printing conditions.") { make, verify };
    }

    private static async Task<int> MakeAsync(ParseResult line, CancellationToken cancel)
    {
        var output = Path.GetFullPath(line.GetRequiredValue(Out));
        var outcome = await new MakeProfile(TimeProvider.System).RunAsync(
            new(line.GetRequiredValue(Charts), Path.GetFileNameWithoutExtension(output), line.GetValue(Version), line.GetValue(Grid)), line.Progress(), cancel);
        if (outcome.Granted)
        {
            // Whole under its name, or not at all.
            var coming = output + ".coming";
            await File.WriteAllBytesAsync(coming, outcome.Value.File, cancel);
            File.Move(coming, output, overwrite: true);
        }

        return await line.GiveAsync(outcome, done => WorthRecord.Of(done.Worth), done => Words(done.Worth));
    }

    private static string Words(ProfileWorth worth) =>
        $"{worth.Verdict}. {worth.Advice}\nOn the chart: {Words(worth.Chart)}\n{(worth.Foretold is { } f ? $"Patches not seen: {Words(f)}\n" : "")}There and back: {Words(worth.ThereAndBack)}";

    private static string Words(ErrorFigures figures) => $"mean {figures.Mean:0.00}, p95 {figures.P95:0.00}, worst {figures.Max:0.0} dE00";
}

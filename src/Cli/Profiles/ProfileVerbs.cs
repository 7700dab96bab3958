using System.CommandLine;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.Cli.Profiles;

/// <summary><c>measurement read</c>, <c>profile make</c> and <c>profile verify</c>: without a room, on files alone.</summary>
public static class ProfileVerbs
{
    private static readonly Argument<string> Chart = new("FILE") { Description = "A measured chart: CGATS, ISO 28178, CxF or CSV." };

    private static readonly Argument<string[]> Charts = new("FILE") { Description = "One or more charts of one condition.", Arity = ArgumentArity.OneOrMore };

    private static readonly Argument<string[]> ByDay = new("FILE") { Description = "One or more charts of one condition, the newest first.", Arity = ArgumentArity.OneOrMore };

    private static readonly Argument<string> Profile = new("PROFILE") { Description = "An ICC profile." };

    private static readonly Option<string> Out = new("--out") { Description = "Where to write the profile.", Required = true };

    private static readonly Option<string> Merged = new("--out") { Description = "Where to write the chart, as CGATS text.", Required = true };

    private static readonly Option<int> Version = new("--version") { Description = "4, or 2 for old systems.", DefaultValueFactory = _ => 4 };

    private static readonly Option<int?> Grid = new("--grid") { Description = "Nodes along each side of the tables, 9 to 45." };

    private static readonly Option<int?> Strip = new("--strip") { Description = "Patches to a strip, where the file does not tell." };

    private static readonly Option<MCondition?> Condition = new("--condition") { Description = "M0, M1, M2 or M3, where a file holds several." };

    private static readonly Option<string?> Light = new("--light") { Description = "The light prints are looked at under, computed from spectra: daylight, warm or uv-free." };

    private static readonly Option<int?> InkLimit = new("--ink-limit") { Description = "The most ink of all channels together, 200 to 400 %; CMYK only. 320 where it is not said." };

    private static readonly Option<string> Black = new("--black") { Description = "From where on CMYK takes black ink: late, usual or early.", DefaultValueFactory = _ => "usual" };

    private static readonly Option<bool> Matte = new("--matte") { Description = "The paper is matte: said in the profile." };

    private static readonly Option<bool> Mean = new("--mean") { Description = "Of several charts: the mean of their days, rather than the day of the first." };

    private static readonly Option<string[]> Known = new("--known")
    {
        Description = "Charts of another paper on the same printer: they help while there are few patches.",
        AllowMultipleArgumentsPerToken = true,
    };

    public static Command Measurement()
    {
        var read = new Command("read", "Says what is in a measurement file and what looks misread.") { Chart, Strip, Condition, Answer.Json };
        read.SetAction(async (line, cancel) => await line.GiveAsync(
            await new ReadMeasurement().RunAsync(new(line.GetRequiredValue(Chart), line.GetValue(Strip), line.GetValue(Condition)), cancel),
            done => done,
            done => $"{done.Patches} patches ({done.Distinct} different), {done.Space}, {done.Condition}; {done.Suspects.Count} look misread.{string.Concat(done.Findings.Select(f => $"\n{f}"))}"));
        var merge = new Command("merge", "Makes one chart of several files: read several times, in parts, or some strips again.") { Charts, Merged, Condition, Answer.Json };
        merge.SetAction(async (line, cancel) => await line.GiveAsync(
            await new MergeReadings().RunAsync(new(line.GetRequiredValue(Charts), line.GetRequiredValue(Merged), line.GetValue(Condition)), cancel),
            done => done,
            done => $"{done.Patches} patches in {done.File}{(done.Noise is { } n ? $"; two readings of a patch differ by {n:0.00} dE00 on average" : "")}.{string.Concat(done.Findings.Select(f => $"\n{f}"))}"));
        return new("measurement", "Measured charts.") { read, merge };
    }

    public static Command Create()
    {
        var make = new Command("make", "Makes a profile from measured charts.") { ByDay, Out, Version, Grid, Known, Mean, Condition, Light, InkLimit, Black, Matte, WorthFiles.Pdf, WorthFiles.Csv, Answer.Json };
        Light.AcceptOnlyFromAmong("daylight", "warm", "uv-free");
        Black.AcceptOnlyFromAmong("late", "usual", "early");
        make.SetAction(MakeAsync);
        var verify = new Command("verify", "Judges a profile against a measured chart.") { Profile, Chart, WorthFiles.Pdf, WorthFiles.Csv, Answer.Json };
        verify.SetAction(VerifyAsync);
        return new("profile", "ICC profiles of printing conditions.") { make, verify, WorthFiles.Worth(), Older() };
    }

    private static async Task<int> MakeAsync(ParseResult line, CancellationToken cancel)
    {
        var output = Path.GetFullPath(line.GetRequiredValue(Out));
        var outcome = await new MakeProfile(TimeProvider.System).RunAsync(
            new(line.GetRequiredValue(ByDay), Path.GetFileNameWithoutExtension(output), line.GetValue(Version), line.GetValue(Grid),
                Matte: line.GetValue(Matte), Known: line.GetValue(Known), Condition: line.GetValue(Condition), Light: LightOf(line.GetValue(Light)),
                InkLimit: line.GetValue(InkLimit), Black: line.GetValue(Black) switch { "late" => BlackStart.Late, "early" => BlackStart.Early, _ => BlackStart.Usual }, MeanOfDays: line.GetValue(Mean)), line.Progress(), cancel);
        if (outcome.Granted)
        {
            await WorthFiles.WholeAsync(output, outcome.Value.File, cancel);
            await WorthFiles.WriteAsync(line, Path.GetFileNameWithoutExtension(output), $"made of {Names(line.GetRequiredValue(ByDay))}", WorthRecord.Of(outcome.Value.Worth), outcome.Value.File, cancel);
        }

        return await line.GiveAsync(outcome, done => WorthRecord.Of(done.Worth), done => Words(done.Worth));
    }

    private static string Names(string[] charts) => string.Join(", ", charts.Select(Path.GetFileName));

    private static async Task<int> VerifyAsync(ParseResult line, CancellationToken cancel)
    {
        var (profile, chart) = (line.GetRequiredValue(Profile), line.GetRequiredValue(Chart));
        var outcome = await new VerifyProfile().RunAsync(new(profile, chart), cancel);
        if (outcome.Granted)
        {
            await WorthFiles.WriteAsync(line, Path.GetFileNameWithoutExtension(profile), $"judged on {Path.GetFileName(chart)}", WorthRecord.Of(outcome.Value), await File.ReadAllBytesAsync(profile, cancel), cancel);
        }

        return await line.GiveAsync(outcome, WorthRecord.Of, Words);
    }

    private static Command Older()
    {
        var older = new Command("older", "Writes a profile that was made here once more, as version 2 for programs that read no newer one.") { Profile, Out, Answer.Json };
        older.SetAction(async (line, cancel) =>
        {
            var outcome = await new WriteOlderProfile().RunAsync(new(line.GetRequiredValue(Profile)), cancel);
            if (outcome.Granted)
            {
                await WorthFiles.WholeAsync(line.GetRequiredValue(Out), outcome.Value.File, cancel);
            }

            return await line.GiveAsync(outcome, done => new { Bytes = done.File.Length }, done => $"Version 2, {done.File.Length / 1024} kB.");
        });
        return older;
    }

    private static ViewingLight? LightOf(string? word) => word switch
    {
        "daylight" => ViewingLight.Daylight,
        "warm" => ViewingLight.WarmLamp,
        "uv-free" => ViewingLight.UvFreeGlass,
        _ => null,
    };

    private static string Words(ProfileWorth worth)
    {
        List<(string, ErrorSummary?)> rows =
        [
            ("On the chart", worth.Chart), ("Patches not seen", worth.Foretold), ("The same patch read twice", worth.Noise),
            ("There and back, inside", worth.Interior), ("There and back, surface", worth.Surface), ("There and back, greys", worth.Neutral),
            .. worth.Regions.Select(r => ($"{r.Region}, {r.Errors.Count} patches", (ErrorSummary?)r.Errors)),
        ];
        return string.Join('\n',
        [
            $"{worth.Verdict}. {worth.Advice}", .. worth.Better,
            .. rows.Where(r => r.Item2 is not null).Select(r => $"{r.Item1}: {Words(r.Item2!.Value)}"),
            $"White L* {worth.White.L:0.0}, black L* {worth.Black.L:0.0}; the greys' steps bend by {Bends.Of([.. worth.Greys.Select(g => g.Printed.L)]):0.00} L* at most{(worth.Reverses ? " and turn back" : "")}",
            .. worth.Gamut is { } g ? (string[])[$"Gamut: {g.Volume:N0} cubic dE*ab, give or take {g.Error:N0}"] : [],
            $"Worst: {string.Join(", ", worth.Worst.Take(5).Select(w => $"{w.Id} {w.Error:0.0}"))}",
        ]);
    }

    private static string Words(ErrorSummary e) => $"mean {e.Mean.Value:0.00}, p95 {e.P95.Value:0.00}, worst {e.Largest.Value:0.0} dE00";
}

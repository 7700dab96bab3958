using System.CommandLine;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Measurement;
using Goodsheet.Room.Units;

namespace Goodsheet.Cli.Profiles;

/// <summary><c>chart make</c> and <c>chart strip</c>: sheets to print and measure, without a room.</summary>
public static class ChartVerb
{
    private static readonly Argument<string> Name = new("NAME") { Description = "The chart's name: on its sheets, and of its files." };

    private static readonly Option<string> Of = new("--of") { Description = "The measured chart whose patches it takes.", Required = true };

    private static readonly Option<string> Margin = new("--margin") { Description = "The free margin, long x high in mm.", DefaultValueFactory = _ => "250x15mm" };

    private static readonly Option<string> Out = new("--out") { Description = "The folder for its files.", DefaultValueFactory = _ => "." };

    private static readonly Option<string> Inks = new("--device") { Description = "What the printer is driven with: rgb, cmyk or grey.", DefaultValueFactory = _ => "rgb" };

    private static readonly Option<int> Sheets = new("--sheets") { Description = "How many sheets to fill.", DefaultValueFactory = _ => 1 };

    private static readonly Option<string> Format = new("--format") { Description = "The paper, width x height in mm.", DefaultValueFactory = _ => "297x210mm" };

    private static readonly Option<bool> Strip = new("--strips") { Description = "The instrument reads strips, not single patches." };

    private static readonly Option<string> Patch = new("--patch") { Description = "A patch, along its strip x across it.", DefaultValueFactory = _ => "8x8mm" };

    private static readonly Option<double> Gap = new("--gap") { Description = "Bare paper between patches, mm.", DefaultValueFactory = _ => 0.5 };

    private static readonly Option<double> Ppi = new("--ppi") { Description = "The printer's own pixels per inch.", DefaultValueFactory = _ => 360 };

    private static readonly Option<int?> Patches = new("--patches") { Description = "Fewer patches than the sheets hold: 32 for a new paper on a known printer." };

    private static readonly Option<bool> Settings = new("--settings") { Description = "A test sheet of ramps, to choose media setting, ink load and platen gap by before the first chart." };

    private static readonly Option<int> InkLimit = new("--ink-limit") { Description = "The most ink of all channels together, in percent; CMYK only.", DefaultValueFactory = _ => 320 };

    private static readonly Option<string[]> After = new("--after") { Description = "Measured charts of the same condition: the new one goes where they leave most open.", AllowMultipleArgumentsPerToken = true };

    public static Command Create()
    {
        Inks.AcceptOnlyFromAmong("rgb", "cmyk", "grey");
        var strip = new Command("strip", "Makes a control strip for a print's margin: 24 to 48 patches of a measured chart.")
        {
            Name, Of, Out, Margin, Strip, Patch, Gap, Ppi, Patches, Answer.Json,
        };
        strip.SetAction(StripAsync);
        var make = new Command("make", "Makes a chart: sheets as TIFF, and its reference as CGATS text.")
        {
            Name, Out, Inks, Sheets, Format, Strip, Patch, Gap, Ppi, Patches, After, InkLimit, Settings, Answer.Json,
        };
        make.SetAction(MakeAsync);
        return new("chart", "Charts to print and measure.") { make, strip };
    }

    private static async Task<int> StripAsync(ParseResult line, CancellationToken cancel)
    {
        var (margin, patch) = (LengthText.ReadSize(line.GetRequiredValue(Margin)), LengthText.ReadSize(line.GetRequiredValue(Patch)));
        return await line.GiveAsync(
            !margin.Granted ? margin.Refusal : !patch.Granted ? patch.Refusal
            : await new MakeChart().RunAsync(
                new(InMargin(Asked(line, margin.Value, patch.Value)), line.GetRequiredValue(Out), [line.GetRequiredValue(Of)]), cancel),
            done => done,
            done => $"{done.Patches} patches, {done.PatchesInStrip} to a strip:\n{string.Join('\n', done.Files)}\nPrint it beside a picture, at its own size and without any colour management.");
    }

    private static async Task<int> MakeAsync(ParseResult line, CancellationToken cancel)
    {
        var (format, patch) = (LengthText.ReadSize(line.GetRequiredValue(Format)), LengthText.ReadSize(line.GetRequiredValue(Patch)));
        return await line.GiveAsync(
            !format.Granted ? format.Refusal : !patch.Granted ? patch.Refusal
            : await new MakeChart().RunAsync(
                new(Kind(line, Asked(line, format.Value, patch.Value)), line.GetRequiredValue(Out), line.GetValue(After) ?? []), cancel),
            done => done,
            done => $"{done.Patches} patches on {done.Sheets} {(done.Sheets == 1 ? "sheet" : "sheets")}, {done.PatchesInStrip} to a strip:\n{string.Join('\n', done.Files)}\nPrint the sheets at their own size and without any colour management.");
    }

    private static Asked Kind(ParseResult line, Asked asked) => line.GetValue(Settings) ? asked with { Kind = ChartKind.Settings } : asked;

    private static Asked InMargin(Asked asked) => asked with { Kind = ChartKind.Strip, Sheets = 1, Sheet = asked.Sheet with { Band = true } };

    private static Asked Asked(ParseResult line, LengthText.StatedSize format, LengthText.StatedSize patch) => new(
        line.GetRequiredValue(Name),
        line.GetValue(Inks) switch { "cmyk" => DeviceSpace.Cmyk, "grey" => DeviceSpace.Grey, _ => DeviceSpace.Rgb },
        new(
            format.Width.Millimetres, format.Height.Millimetres, patch.Width.Millimetres, patch.Height.Millimetres, line.GetValue(Gap),
            line.GetValue(Strip) ? ChartReadBy.Strip : ChartReadBy.Patch),
        line.GetValue(Sheets) is >= 1 and var sheets ? sheets : 1, line.GetValue(Ppi), line.GetValue(Patches), InkLimit: line.GetValue(InkLimit) is > 0 and var ink ? ink / 100.0 : 3.2);
}

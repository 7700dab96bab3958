using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Goodsheet.App.Layout;
using Goodsheet.Room;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.Cli.Layout;

/// <summary><c>nest</c>: lays pieces on a roll or on sheets, with the cuts in order.</summary>
public static class NestVerb
{
    private const double MostSeconds = 600;

    private static readonly Option<string> Pieces = new("--pieces") { Description = "CSV file: name,width_mm,height_mm,copies", Required = true };

    private static readonly Option<LengthText.Stated?> Roll = Measured("--roll", "Width of the roll, as 610mm or 24in.");

    private static readonly Option<LengthText.StatedSize?> Sheet = new("--sheet")
    {
        Description = "Width by height of the sheets, as 420x594mm.",
        CustomParser = argument => Read(argument, LengthText.ReadSize),
    };

    private static readonly Option<LengthText.Stated?> Gutter = Measured("--gutter", "Clearance for the knife between pieces, as 5mm; none if left out.");

    private static readonly Option<LengthText.Stated?> Margin = Measured("--margin", "Kept free at all four edges and trimmed first, as 3mm.");

    private static readonly Option<bool> NoTurn = new("--no-turn") { Description = "Lay every piece as it is given: grain or picture forbids turning." };

    private static readonly Option<double> Seconds = new("--seconds")
    {
        Description = "How long to search for a better layout.",
        DefaultValueFactory = _ => 1,
        CustomParser = argument =>
        {
            if (double.TryParse(argument.Tokens[0].Value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var s) && s <= MostSeconds)
            {
                return s;
            }

            argument.AddError($"--seconds has to be a number from 0 to {MostSeconds}.");
            return 0;
        },
    };

    private static readonly Option<int> Seed = new("--seed") { Description = "The same seed and time lead to like layouts.", DefaultValueFactory = _ => 1 };

    private static readonly Option<string?> Out = new("--out") { Description = "Where to write the layout and its cuts, as JSON." };

    private static readonly Option<string?> Svg = new("--svg") { Description = "Where to write a drawing, as SVG." };

    private static readonly Option<bool> Json = new("--json") { Description = "Print the layout as JSON." };

    public static Command Create()
    {
        var command = new Command("nest", "Lays pieces on a roll or sheets so that a trimmer can cut them out.")
        {
            Pieces, Roll, Sheet, Gutter, Margin, NoTurn, Seconds, Seed, Out, Svg, Json,
        };
        command.Validators.Add(line =>
        {
            if (line.GetResult(Roll) is null == line.GetResult(Sheet) is null)
            {
                line.AddError("Say either --roll or --sheet.");
            }
        });
        command.SetAction(RunAsync);
        return command;
    }

    private static async Task<int> RunAsync(ParseResult line, CancellationToken cancel)
    {
        var time = TimeSpan.FromSeconds(line.GetValue(Seconds));
        var outcome = await new NestPieces(TimeProvider.System).RunAsync(
            new(line.GetRequiredValue(Pieces), StockOf(line), !line.GetValue(NoTurn), time, line.GetValue(Seed), line.GetValue(Out), line.GetValue(Svg)), cancel);
        if (!outcome.Granted)
        {
            await line.InvocationConfiguration.Error.WriteLineAsync(outcome.Refusal.Message);
            return Exit.Refused;
        }

        await line.InvocationConfiguration.Output.WriteLineAsync(line.GetValue(Json) ? outcome.Value.Report.ToJson() : Says(outcome.Value));
        return Exit.Done;
    }

    private static Stock StockOf(ParseResult line)
    {
        var gutter = line.GetValue(Gutter)?.Length ?? Length.Zero;
        var margin = line.GetValue(Margin)?.Length ?? Length.Zero;
        var margins = new Margins(margin, margin, margin, margin);
        return line.GetValue(Sheet) is { } size
            ? Stock.Sheet(size.Width, size.Height, margins, gutter)
            : Stock.Roll(line.GetValue(Roll)!.Length, margins, gutter);
    }

    private static string Says(NestPieces.Done done)
    {
        var (nest, report) = done;
        var took = nest.Stock.IsRoll
            ? string.Create(CultureInfo.CurrentCulture, $"{nest.RollUsed.Millimetres:0.#} mm of roll")
            : $"{nest.Cost} {(nest.Cost == 1 ? "sheet" : "sheets")}";
        var least = nest.Stock.IsRoll ? string.Create(CultureInfo.CurrentCulture, $"{report.BoundMm:0.#} mm") : $"{nest.Bound} {(nest.Bound == 1 ? "sheet" : "sheets")}";
        return string.Create(
            CultureInfo.CurrentCulture,
            $"{nest.Sheets.Sum(s => s.Placements.Count)} pieces on {took}; {(nest.IsBest ? "no layout takes less" : $"none can take less than {least}")}. {report.UsedPercent:0.#} % of the paper is used. {report.Sheets.Sum(s => s.Cuts.Count)} cuts.");
    }

    private static Option<LengthText.Stated?> Measured(string name, string description) =>
        new(name) { Description = description, CustomParser = argument => Read(argument, LengthText.Read) };

    private static T? Read<T>(ArgumentResult argument, Func<string, Outcome<T>> read)
        where T : class
    {
        var outcome = read(argument.Tokens[0].Value);
        if (!outcome.Granted)
        {
            argument.AddError(outcome.Refusal.Message);
        }

        return outcome.Value;
    }
}

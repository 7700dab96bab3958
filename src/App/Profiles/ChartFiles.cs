using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>From what the keeper asks to a chart, and to its files.</summary>
internal static class ChartFiles
{
    private const int Seed = 1;
    private const int MostSheets = 20;
    private const double LeastInk = 2;
    private const double MostInk = 4;
    private const int LeastOfStrip = 24;
    private const int MostOfStrip = 48;

    // A sheet of this many pixels has 4 GB and more.
    private const double MostPpi = 1440;

    /// <param name="asked">What is asked.</param>
    /// <param name="known">Readings of the same condition, for a second chart and for a strip.</param>
    /// <param name="cancel">Stops it.</param>
    public static Outcome<Chart> Design(Asked asked, IReadOnlyList<MeasurementSet> known, CancellationToken cancel)
    {
        if (asked.Sheets is < 1 or > MostSheets || asked.Ppi is < 72 or > MostPpi)
        {
            return new NoSuchChart($"between 1 and {MostSheets} sheets, at 72 to {MostPpi} pixels per inch");
        }

        if (!asked.Sheet.IsUsable)
        {
            return new NoSuchChart(asked.Sheet.Band ? "the margin has to hold a strip of four patches" : "a strip of four patches has to fit on the sheet, patches are 2 to 60 mm and gaps 0 to 20 mm");
        }

        return asked.Kind switch
        {
            ChartKind.Strip => Strip(asked, known[0]),
            ChartKind.Settings => Ramps(asked),
            ChartKind.Second when known[0].Space is not (DeviceSpace.Grey or DeviceSpace.Rgb or DeviceSpace.Cmyk) || known.Any(k => k.Space != known[0].Space) => new NotAlike(),
            ChartKind.Second => Whole(asked with { Space = known[0].Space }, known, cancel),
            _ => Whole(asked, known, cancel),
        };
    }

    private static Outcome<Chart> Whole(Asked asked, IReadOnlyList<MeasurementSet> known, CancellationToken cancel)
    {
        if (asked.InkLimit is < LeastInk or > MostInk)
        {
            return new NoSuchChart($"{100 * LeastInk} to {100 * MostInk} % of ink");
        }

        var room = asked.Sheets * asked.Sheet.Patches;
        var count = Math.Min(asked.Patches ?? room, ChartDesign.Most);
        if (count > room || count < ChartDesign.Fewest)
        {
            return new NoSuchChart($"these sheets hold {room} patches, and a chart has at least {ChartDesign.Fewest}");
        }

        var devices = asked.Kind is ChartKind.Second
            ? ChartDesign.Second(PrinterModels.Fit(known, null, cancel), known, count, asked.InkLimit)
            : ChartDesign.First(asked.Space, count, asked.InkLimit);
        return ChartOrder.Lay(asked.Space, devices, asked.Sheet, Seed);
    }

    private static Outcome<Chart> Strip(Asked asked, MeasurementSet chart)
    {
        var there = chart.Averaged().Length;
        var count = Math.Min(asked.Patches ?? asked.Sheet.Patches, Math.Min(MostOfStrip, there));
        return count < LeastOfStrip || count > asked.Sheet.Patches
            ? new NoSuchChart($"a control strip has {LeastOfStrip} to {MostOfStrip} patches of its chart; this margin holds {asked.Sheet.Patches}, and the chart has {there}")
            : ChartOrder.Lay(chart.Space, ChartDesign.Strip(chart, count), asked.Sheet, Seed);
    }

    private static Outcome<Chart> Ramps(Asked asked)
    {
        var devices = ChartDesign.Ramps(asked.Space);
        var room = asked.Sheets * asked.Sheet.Patches;
        return devices.Count > room ? new NoSuchChart($"the test sheet has {devices.Count} patches, and there is room for {room}")
            : ChartOrder.Lay(asked.Space, devices, asked.Sheet, Seed);
    }

    /// <summary>Writes the sheets and the reference into a folder that is there; all of them, or none.</summary>
    public static IReadOnlyList<string> Write(Chart chart, Asked asked, string folder, CancellationToken cancel)
    {
        var written = new List<string>();
        try
        {
            for (var sheet = 0; sheet < chart.Sheets; sheet++)
            {
                cancel.ThrowIfCancellationRequested();
                var path = Path.Combine(folder, $"{asked.Name}-{sheet + 1}.tif");
                written.Add(path);
                new ChartDrawing(ChartLayout.Of(chart, sheet, asked.Name), asked.Ppi).Write(path, asked.Ppi);
            }

            var pages = Path.Combine(folder, $"{asked.Name}.pdf");
            written.Add(pages);
            File.WriteAllBytes(pages, ChartPages.Draw(chart, asked.Name));

            var reference = Path.Combine(folder, $"{asked.Name}.txt");
            written.Add(reference);
            File.WriteAllText(reference, chart.Reference(asked.Name));
            return written;
        }
        catch
        {
            written.ForEach(File.Delete);
            throw;
        }
    }

    /// <summary>A name that can be a file's, too.</summary>
    public static string NameOf(string name) =>
        new string([.. name.Trim().Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.' ? c : '-')]).Trim('.', '-') is { Length: > 0 } safe
            ? safe[..Math.Min(safe.Length, 60)] : "chart";
}

/// <summary>What a keeper asks of a chart.</summary>
/// <param name="Name">On the sheets and of the files.</param>
/// <param name="Space">Grey, RGB or CMYK.</param>
/// <param name="Sheet">Its format and patches.</param>
/// <param name="Sheets">How many sheets may be filled.</param>
/// <param name="Ppi">The printer's own pixels per inch.</param>
/// <param name="Patches">Fewer than the sheets hold, if so wanted.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="InkLimit">The most ink of all channels together, 1 a channel; CMYK only.</param>
public sealed record Asked(
    string Name, DeviceSpace Space, ChartSheet Sheet, int Sheets, double Ppi, int? Patches = null, ChartKind Kind = ChartKind.First, double InkLimit = 3.2);

public enum ChartKind
{
    /// <summary>Filled evenly: for a condition that has no chart yet.</summary>
    First,

    /// <summary>Where the readings there are leave most open.</summary>
    Second,

    /// <summary>Ramps to full ink, to choose media setting, ink load and platen gap by, before the first chart.</summary>
    Settings,

    /// <summary>24 to 48 patches of a chart that was read, to be held against it.</summary>
    Strip,
}

public sealed record NotAlike() : Refusal("A second chart is made after readings of one printer: all grey, all RGB or all CMYK. Nothing was written.");

public sealed record NoSuchChart(string Why) : Refusal($"That chart cannot be: {Why}. Nothing was written.");

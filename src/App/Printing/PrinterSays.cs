using System.Globalization;

namespace Goodsheet.App.Printing;

/// <summary>What a printer on the network tells of itself, in the words of the room.</summary>
/// <param name="Is">"ready", "printing" or "stopped".</param>
/// <param name="Accepts">Takes jobs now.</param>
/// <param name="Because">What keeps or troubles it; empty when nothing does.</param>
/// <param name="Supplies">Inks and the waste tank, as far as it tells.</param>
/// <param name="Formats">The kinds of file it takes.</param>
public sealed record PrinterSays(string Is, bool Accepts, IReadOnlyList<string> Because, IReadOnlyList<PrinterSays.Supply> Supplies, IReadOnlyList<string> Formats)
{
    /// <summary>A 16-bit TIFF, as the room makes it.</summary>
    public const string Tiff = "image/tiff";

    // RFC 8011 5.4.11 and PWG 5100.13: printer-state, marker and supply attributes.
    internal static readonly string[] Asked =
    [
        "printer-state", "printer-state-reasons", "printer-is-accepting-jobs", "document-format-supported",
        "marker-names", "marker-levels", "marker-types", "printer-supply", "printer-supply-description",
    ];

    private const int Idle = 3;
    private const int Processing = 4;
    private const int MostSupplies = 40;

    public bool IsStopped => Is == "stopped";

    public bool TakesTiff => Formats.Contains(Tiff) || Formats.Contains("application/octet-stream");

    internal static PrinterSays Of(IppMessage.Group printer)
    {
        var state = printer.Numbers("printer-state") is [var s, ..] ? s : 0;
        return new(
            state switch { Idle => "ready", Processing => "printing", _ => "stopped" },
            !printer.Attributes.Any(a => a.Name == "printer-is-accepting-jobs" && a.Values is [false]),
            [.. printer.Texts("printer-state-reasons").Where(r => r != "none").Select(Words).Distinct()],
            [.. Markers(printer).Concat(Told(printer)).Take(MostSupplies)],
            printer.Texts("document-format-supported"));
    }

    /// <summary>A keyword of RFC 8011 5.4.12 in words; what is not known is said as it stands.</summary>
    internal static string Words(string reason)
    {
        var bare = reason;
        foreach (var end in (string[])["-error", "-warning", "-report"])
        {
            bare = bare.EndsWith(end, StringComparison.Ordinal) ? bare[..^end.Length] : bare;
        }

        return bare switch
        {
            "media-empty" or "media-needed" or "input-tray-missing" => "out of paper",
            "media-low" => "little paper left",
            "media-jam" => "paper is jammed",
            "marker-supply-low" or "toner-low" => "an ink is low",
            "marker-supply-empty" or "toner-empty" => "an ink is out",
            "marker-waste-almost-full" => "the waste tank is almost full",
            "marker-waste-full" => "the waste tank is full",
            "cover-open" or "door-open" or "interlock-open" => "a cover is open",
            "paused" or "moving-to-paused" => "somebody paused it",
            "shutdown" or "offline" => "it is switched off",
            "spool-area-full" => "its memory is full",
            _ => bare.Replace('-', ' '),
        };
    }

    private static IEnumerable<Supply> Markers(IppMessage.Group printer)
    {
        var (names, levels, types) = (printer.Texts("marker-names"), printer.Numbers("marker-levels"), printer.Texts("marker-types"));
        return names.Zip(levels, (name, level) => (name, level)).Select((m, i) =>
            new Supply(m.name, m.level is >= 0 and <= 100 ? m.level : null, i < types.Count && types[i].StartsWith("waste", StringComparison.Ordinal)));
    }

    private static IEnumerable<Supply> Told(IppMessage.Group printer)
    {
        var described = printer.Texts("printer-supply-description");
        return printer.Texts("printer-supply").Select(PrinterSupply)
            .Select((supply, i) => i < described.Count && described[i].Length > 0 && supply is not null ? supply with { Name = described[i] } : supply)
            .OfType<Supply>();
    }

    // "index=1;class=supplyThatIsConsumed;type=ink;maxcapacity=100;level=45;colorantname=cyan;"
    private static Supply? PrinterSupply(string octets)
    {
        var parts = octets.Split(';', StringSplitOptions.RemoveEmptyEntries).Select(p => p.Split('=', 2)).Where(p => p.Length == 2)
            .GroupBy(p => p[0]).ToDictionary(g => g.Key, g => g.First()[1]);
        if (!parts.TryGetValue("level", out var said) || !int.TryParse(said, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var level))
        {
            return null;
        }

        var most = parts.TryGetValue("maxcapacity", out var m) && int.TryParse(m, NumberStyles.None, CultureInfo.InvariantCulture, out var max) && max > 0 ? max : 100;
        var fills = parts.GetValueOrDefault("class", "").Contains("Filled", StringComparison.OrdinalIgnoreCase);
        var name = fills ? "waste tank" : parts.GetValueOrDefault("colorantname", parts.GetValueOrDefault("type", "ink"));
        return new(name, level >= 0 ? Math.Clamp((int)Math.Round(100.0 * level / most), 0, 100) : null, fills);
    }

    /// <param name="Name">"cyan", "waste tank": the printer's own word.</param>
    /// <param name="Percent">Left of an ink, filled of a tank; none when the printer does not know.</param>
    /// <param name="Fills">A tank that fills, not an ink that empties.</param>
    public sealed record Supply(string Name, int? Percent, bool Fills);
}

/// <summary>What a printer tells of a job it was given.</summary>
/// <param name="Is">"waiting", "printing", "stopped", "printed", "given up".</param>
/// <param name="Because">What keeps it; empty when nothing does.</param>
public sealed record JobSays(string Is, string Because)
{
    public bool HasEnded => Is is "printed" or "given up";

    internal static JobSays Of(IppMessage.Group job)
    {
        // RFC 8011 5.3.7: 3 pending, 4 held, 5 processing, 6 processing-stopped, 7 canceled, 8 aborted, 9 completed.
        var state = job.Numbers("job-state") is [var s, ..] ? s : 0;
        var reasons = job.Texts("job-state-reasons").Where(r => r is not ("none" or "job-completed-successfully" or "job-printing")).Select(PrinterSays.Words);
        return new(state switch { 5 => "printing", 6 => "stopped", 7 or 8 => "given up", 9 => "printed", _ => "waiting" }, string.Join(", ", reasons.Distinct()));
    }
}

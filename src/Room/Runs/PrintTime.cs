using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;

namespace Goodsheet.Room.Runs;

/// <summary>How long prints take at a printer, in minutes: by area, and the hands that feed it.</summary>
public static class PrintTime
{
    private const int StackLoad = 50; // sheets in a stack; common practice, no source

    public static double OfArea(Printer printer, double squareMetres)
    {
        ArgumentNullException.ThrowIfNull(printer);
        return 60 * squareMetres / Math.Max(printer.SquareMetresPerHour, 0.01);
    }

    /// <param name="squareMetres">Of all prints together.</param>
    public static double Of(Printer printer, Feed feed, double squareMetres, int prints, PlanSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var loads = feed switch { Feed.OneByOne => prints, Feed.TwoOrThree => (prints + 1) / 2, _ => ((prints - 1) / StackLoad) + 1 };
        return OfArea(printer, squareMetres) + (loads * settings.MinutesPerLoad);
    }

    /// <summary>Whether a person stays at the printer, so that it rests while the room is closed.</summary>
    public static bool KeepsAPerson(Feed feed) => feed is Feed.TwoOrThree or Feed.OneByOne;
}

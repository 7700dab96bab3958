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

    /// <param name="feed">Of the paper as it is on this format: <see cref="Paper.FeedFrom"/>.</param>
    /// <param name="squareMetres">Of all prints together.</param>
    /// <param name="sheets">That are fed; of a roll any number, it is put on once.</param>
    public static double Of(Printer printer, Feed feed, double squareMetres, long sheets, PlanSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return OfArea(printer, squareMetres) + (Loads(feed, sheets) * settings.MinutesPerLoad);
    }

    /// <summary>How often somebody feeds it.</summary>
    public static long Loads(Feed feed, long sheets) => feed switch
    {
        Feed.Roll => 1,
        Feed.OneByOne => sheets,
        Feed.TwoOrThree => (sheets + 1) / 2,
        _ => ((sheets - 1) / StackLoad) + 1,
    };

    /// <summary>Whether a person stays at the printer, so that it rests while the room is closed.</summary>
    public static bool KeepsAPerson(Feed feed) => feed is Feed.TwoOrThree or Feed.OneByOne;
}

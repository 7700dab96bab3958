using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Layout;

/// <summary>The paper that prints of a run are laid on, with the rules that bind them: knife, margins of the feed path, direction.</summary>
internal sealed record RunPaper(Stock Stock, LayoutSettings Settings, bool OneWay)
{
    public const double SearchSeconds = 0.5;
    private const long MostTurns = 200_000; // about as long, where a clock stands still

    public static async Task<RunPaper> OfAsync(RoomDb db, Format format, Printer printer, PaperCode code, CancellationToken cancel)
    {
        var settings = await db.LayoutSettings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == code, cancel);
        var feed = paper.FeedFrom(format.IsRoll);
        var said = await db.FeedMargins.AsNoTracking().SingleOrDefaultAsync(m => m.Printer == printer.Code && m.Feed == feed, cancel);
        var margins = said?.Margins ?? FeedMargins.Usual(printer, feed);
        return new(
            format.IsRoll ? Stock.Roll(format.Width, margins, settings.Gutter) : Stock.Sheet(format.Width, format.Height, margins, settings.Gutter),
            settings, paper.OneWay);
    }

    /// <summary>Copies of print lines that other runs are going to print.</summary>
    public static async Task<Dictionary<(int Order, int Line), int>> OpenCopiesAsync(RoomDb db, int? but, CancellationToken cancel)
    {
        var rows = await (
            from print in db.RunPrints.AsNoTracking()
            join run in db.Runs on print.Run equals run.Number
            where (run.State == RunState.Planned || run.State == RunState.Printing) && run.Number != but
            select new { print.Order, print.Line, print.Copies }).ToListAsync(cancel);
        return rows.GroupBy(r => (r.Order, r.Line)).ToDictionary(g => g.Key, g => g.Sum(r => r.Copies));
    }

    public Piece Of(PrintLine line, int copies) => new(line.Title, line.FullWidth, line.FullHeight, copies, line.MayTurn && !OneWay);

    /// <summary>Lays pieces around those that are held; what it gives was verified.</summary>
    public Outcome<Nest> Lay(IReadOnlyList<Piece> pieces, IReadOnlyList<HeldPiece> held, int seed, TimeProvider clock, double seconds = SearchSeconds)
    {
        var begun = clock.GetTimestamp();
        var outcome = AroundHeld.Lay(pieces, Stock, held, seed, turn => turn * SearchSeconds >= MostTurns * seconds || clock.GetElapsedTime(begun).TotalSeconds > seconds);
        return outcome.Value is { } nest && LayoutVerifier.Check(nest) is { Count: > 0 } faults
            ? throw new InvalidOperationException($"The layout is not sound: {faults[0]}")
            : outcome;
    }
}

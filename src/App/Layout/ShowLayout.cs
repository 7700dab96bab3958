using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Runs;
using Goodsheet.App.Storage;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Layout;

/// <summary>A run's layout with all that can be done to it.</summary>
public sealed class ShowLayout(RoomStore room, TimeProvider clock)
{
    private const int MostOffered = 8;
    private const double SecondsToTry = 0.03; // each: the page has to open

    public async Task<Page?> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        if (await OpenLayout.LoadAsync(db, number, cancel) is not { } open)
        {
            return null;
        }

        var steps = await db.LayoutSteps.AsNoTracking().Where(s => s.Run == number).OrderByDescending(s => s.Number)
            .Select(s => new Step(s.Number, s.At, s.By.Value, s.What)).ToListAsync(cancel);
        var step = steps.Count > 0 ? steps[0].Number : 0;
        var closed = await open.ClosedAsync(step, cancel);
        var (rest, tooShort) = open.RollEnd(open.Run.Needs);
        return new(
            open.Run, open.Layout, open.Format.IsRoll, step, steps, closed?.Message,
            [.. open.Prints().Select(p => new Print(p.Sheet + 1, p.Number + 1, p.Print, open.Paper.Of(open.Lines[p.Piece], 1).MayTurn, Places(open, p)))],
            rest, tooShort, open.Paper.Settings, closed is null ? await OffersAsync(db, open, cancel) : []);
    }

    /// <summary>Free parts it would fit on as it lies, and a sheet of its own.</summary>
    private static List<Place> Places(OpenLayout open, OpenLayout.Lying lying)
    {
        var at = lying.Print.At;
        var free = open.Layout.Sheets.SelectMany((s, i) => s.Offcuts.Where(o => o.Width >= at.Width && o.Height >= at.Height).Select(o => new Place(i + 1, o.X, o.Y, false))).ToList();
        if (!open.Format.IsRoll && open.Layout.Sheets[lying.Sheet].Prints.Count > 1)
        {
            var edges = open.Paper.Stock.Margins;
            free.Add(new(open.Layout.Sheets.Count + 1, edges.Left.Millimetres, edges.Lead.Millimetres, true));
        }

        return free;
    }

    private async Task<List<Offer>> OffersAsync(RoomDb db, OpenLayout open, CancellationToken cancel)
    {
        var offers = new List<Offer>();
        var own = open.Lines.Count;
        foreach (var work in (await WaitingWork.ForAsync(db, open, clock, cancel)).Take(MostOffered))
        {
            // The most copies that fit, by halving what is open.
            var (fit, tooMany) = (0, work.Copies + 1);
            for (var n = work.Copies; n > fit; n = (fit + tooMany) / 2)
            {
                var fits = FillRun.Try(open, [(work, n)], clock, SecondsToTry).Granted;
                open.Lines.RemoveRange(own, open.Lines.Count - own);
                (fit, tooMany) = fits ? (n, tooMany) : (fit, n);
            }

            if (fit > 0)
            {
                offers.Add(new(
                    work.Line.Order, work.Line.Line, work.Line.Title, work.Line.FullWidth, work.Line.FullHeight, work.Order.Promised, work.Line.GoesAlong, fit, work.Copies));
            }
        }

        return offers;
    }

    /// <param name="Step">The last of its history.</param>
    /// <param name="Closed">Why it cannot be changed any more; none while it can.</param>
    /// <param name="Rest">Of a roll what the run leaves.</param>
    /// <param name="TooShort">That is too short to be loaded again.</param>
    public sealed record Page(
        Run Run, RunLayout Layout, bool IsRoll, int Step, IReadOnlyList<Step> Steps, string? Closed, IReadOnlyList<Print> Prints,
        Length Rest, bool TooShort, LayoutSettings Settings, IReadOnlyList<Offer> Offers);

    public sealed record Step(int Number, DateTimeOffset At, string By, string What);

    /// <param name="Sheet">From 1.</param>
    /// <param name="Number">Which of that sheet, from 1.</param>
    public sealed record Print(int Sheet, int Number, RunLayout.Print Lies, bool MayTurn, IReadOnlyList<Place> Places);

    /// <param name="IsNew">A sheet of its own.</param>
    public sealed record Place(int Sheet, double X, double Y, bool IsNew);

    /// <param name="Fit">Copies that fit on the paper.</param>
    /// <param name="Wait">Copies that wait.</param>
    public sealed record Offer(int Order, int Line, string Title, Length Width, Length Height, DateTimeOffset Promised, bool GoesAlong, int Fit, int Wait);
}

using Goodsheet.App.Runs;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Layout;

/// <summary>Lays waiting prints on the paper a planned run leaves over: on its sheets, or on a roll's end that is too short to be loaded again.</summary>
public sealed class FillRun(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await OpenLayout.LoadAsync(db, request.Run, cancel) is not { } open)
            {
                return new NoSuchRun(request.Run);
            }

            if (await open.ClosedAsync(request.Step, cancel) is { } closed)
            {
                return closed;
            }

            var waiting = await WaitingWork.ForAsync(db, open, clock, cancel);
            var asked = request.Prints.Where(p => p.Copies != 0).ToList();
            if (asked.Count == 0)
            {
                return new NothingChosen();
            }

            foreach (var print in asked)
            {
                var one = waiting.Find(w => w.Line.Order == print.Order && w.Line.Line == print.Line);
                if (one is null)
                {
                    return new MayNotShare(print.Order, print.Line, open.Paper.Settings.MixDays);
                }

                if (print.Copies < 0 || print.Copies > one.Copies)
                {
                    return new MoreThanWait(print.Order, print.Line, print.Copies, one.Copies);
                }
            }

            var laid = Try(open, [.. asked.Select(a => (waiting.Find(w => w.Line.Order == a.Order && w.Line.Line == a.Line)!, a.Copies))], clock);
            if (!laid.Granted)
            {
                return laid.Refusal;
            }

            var added = asked.Sum(a => a.Copies);
            var says = $"Laid with it: {string.Join(", ", asked.Select(a => $"{a.Copies} of order {a.Order}"))}";
            return await open.TakeAsync(laid.Value, says, request.By, clock.GetUtcNow(), cancel) is { } no ? no
                : new Done(added, laid.Value.Needs, open.RollEnd(laid.Value.Needs).Left);
        }, cancel);

    /// <summary>The layout with more prints on it, or why they do not fit on the paper that may be used.</summary>
    internal static Outcome<RunLayout> Try(OpenLayout open, IReadOnlyList<(WaitingWork Work, int Copies)> more, TimeProvider clock, double seconds = RunPaper.SearchSeconds)
    {
        var prints = open.Prints();
        var held = prints.Where(p => p.Print.Held).Select(open.Held).ToList();
        var copies = open.Lines.Select((_, i) => prints.Count(p => p.Piece == i)).ToList();
        foreach (var (work, n) in more)
        {
            var at = open.Lines.FindIndex(l => l.Order == work.Line.Order && l.Line == work.Line.Line);
            if (at < 0)
            {
                at = open.Lines.Count;
                open.Lines.Add(work.Line);
                copies.Add(0);
            }

            copies[at] += n;
        }

        var laid = open.Lay(copies, held, 1, clock, seconds);
        var most = MayUse(open);
        return !laid.Granted ? laid.Refusal : laid.Value.Needs > most ? new DoesNotFit(laid.Value.Needs, most, open.Format.IsRoll) : laid;
    }

    /// <summary>Sheets or mm: what the run takes now; of a roll all that is left if the end would be of no use.</summary>
    internal static long MayUse(OpenLayout open) => open.RollEnd(open.Run.Needs).TooShort ? open.OnShelf : open.Run.Needs;

    /// <param name="Step">As for <see cref="ChangeLayout.Request"/>.</param>
    public sealed record Request(PersonName By, int Run, int Step, IReadOnlyList<Chosen> Prints);

    public sealed record Chosen(int Order, int Line, int Copies);

    /// <param name="Needs">Sheets, or mm of roll, that the run takes now.</param>
    /// <param name="Rest">Of a roll what is left after it.</param>
    public sealed record Done(int Added, long Needs, Length Rest);

    public sealed record NothingChosen() : Refusal("No print is chosen. Nothing was changed.");

    public sealed record MayNotShare(int Order, int Line, int Days) : Refusal(
        $"Print {Line} of order {Order} may not go along: it is of another paper, not prepared or approved, on a run already, or its promise is more than {Days} {(Days == 1 ? "day" : "days")} from this run’s. Nothing was changed.");

    public sealed record MoreThanWait(int Order, int Line, int Asked, int Wait) : Refusal(
        Asked < 0 ? $"Fewer than none: {Wait} {(Wait == 1 ? "waits" : "wait")}." : $"You asked for {Asked}, and {Wait} {(Wait == 1 ? "waits" : "wait")}. Nothing was changed.");

    public sealed record DoesNotFit(long Needs, long Most, bool IsRoll) : Refusal(
        $"They do not fit: it would take {Needs} {(IsRoll ? "mm" : "sheets")}, and there are {Most}. Choose fewer. Nothing was changed.");
}

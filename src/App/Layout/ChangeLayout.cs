using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Runs;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Layout;
using Goodsheet.Room.People;

namespace Goodsheet.App.Layout;

/// <summary>Changes how the prints of a planned run lie: one is moved, turned, kept, let go or taken out, and the rest laid around what is held.</summary>
public sealed class ChangeLayout(RoomStore room, TimeProvider clock)
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

            var made = request.What is Edit.GoBack ? await BackAsync(db, request, cancel) : Make(open, request);
            if (!made.Granted)
            {
                return made.Refusal;
            }

            var (layout, says) = made.Value;
            var before = open.Layout.Needs;
            return await open.TakeAsync(layout, says, request.By, clock.GetUtcNow(), cancel) is { } no ? no
                : new Done(says, before, layout.Needs);
        }, cancel);

    private static async Task<Outcome<Made>> BackAsync(RoomDb db, Request request, CancellationToken cancel) =>
        await db.LayoutSteps.AsNoTracking().SingleOrDefaultAsync(s => s.Run == request.Run && s.Number == request.To, cancel) is { } step
            ? new Made(RunLayout.Read(step.Layout), BackWords(step.Number, step.What))
            : new NoSuchStep(request.To);

    private static string BackWords(int number, string what) =>
        number == 0 ? "Back to how it was laid at first" : what.StartsWith("Back to", StringComparison.Ordinal) ? what : $"Back to: {what}";

    private Outcome<Made> Make(OpenLayout open, Request request)
    {
        var prints = open.Prints();
        var held = prints.Where(p => p.Print.Held).ToList();
        var copies = open.Lines.Select((_, i) => prints.Count(p => p.Piece == i)).ToArray();
        if (request.What is Edit.LayAgain)
        {
            return Lay("Laid again, nothing held", []);
        }

        if (prints.Find(p => p.Sheet == request.Sheet - 1 && p.Number == request.Print - 1) is not { } one)
        {
            return new NoSuchPrint(request.Sheet, request.Print);
        }

        var others = held.Where(h => h != one).Select(open.Held).ToList();
        var here = open.Held(one);
        var name = string.Create(CultureInfo.CurrentCulture, $"{one.Print.Title} ({one.Print.Size})");
        switch (request.What)
        {
            case Edit.LetGo:
                return new Made(Mark(open.Layout, one, false), $"Let go: {name}");
            case Edit.Keep:
                var check = Lay("", [.. others, here]);
                return check.Granted ? new Made(Mark(open.Layout, one, true), $"Kept where it lies: {name}") : check.Refusal;
            case Edit.Turn:
                return open.Paper.Of(open.Lines[one.Piece], 1).MayTurn
                    ? Lay($"Turned: {name}", [.. others, here with { Turned = !here.Turned }])
                    : new AroundHeld.MayNotBeTurned(one.Print.Title);
            case Edit.TakeOut when prints.Count == 1:
                return new LastPrint();
            case Edit.TakeOut:
                copies[one.Piece]--;
                return Lay($"Taken out: {name}", others);
            default:
                if (!double.IsFinite(request.X) || !double.IsFinite(request.Y) || Math.Max(Math.Abs(request.X), Math.Abs(request.Y)) > MostMm
                    || request.To is < 1 or > MostSheets || (open.Format.IsRoll && request.To != 1))
                {
                    return new NotAPlace();
                }

                return Lay(
                    string.Create(CultureInfo.CurrentCulture, $"Moved to {(open.Format.IsRoll ? "" : $"sheet {request.To}, ")}{request.X:0.#} mm from the left, {request.Y:0.#} mm from the leading edge: {name}"),
                    [.. others, here with { Sheet = request.To - 1, X = OpenLayout.Um(request.X), Y = OpenLayout.Um(request.Y) }]);
        }

        Outcome<Made> Lay(string says, IReadOnlyList<HeldPiece> hands)
        {
            var laid = open.Lay(copies, hands, request.Step + 2, clock);
            return laid.Granted ? new Made(laid.Value, says) : laid.Refusal;
        }
    }

    private static RunLayout Mark(RunLayout layout, OpenLayout.Lying one, bool held) => layout with
    {
        Sheets = [.. layout.Sheets.Select((s, i) => i != one.Sheet ? s : s with { Prints = [.. s.Prints.Select((p, k) => k == one.Number ? p with { Held = held } : p)] })],
    };

    private const double MostMm = 100_000;
    private const int MostSheets = NestPacker.MostCopies;

    /// <param name="Step">The last step of its history that the person saw: somebody else's later one is not overwritten unseen.</param>
    /// <param name="Sheet">From 1.</param>
    /// <param name="Print">Which print of that sheet, from 1.</param>
    /// <param name="To">The sheet it goes to, from 1; for going back, the step.</param>
    /// <param name="X">In mm from the left edge of the paper.</param>
    /// <param name="Y">In mm from the leading edge.</param>
    public sealed record Request(PersonName By, int Run, int Step, Edit What, int Sheet = 1, int Print = 1, int To = 1, double X = 0, double Y = 0);

    /// <param name="Says">What was done.</param>
    /// <param name="Before">Sheets, or mm of roll, that it took.</param>
    /// <param name="Now">Sheets, or mm of roll, that it takes.</param>
    public sealed record Done(string Says, long Before, long Now);

    private sealed record Made(RunLayout Layout, string Says);

    public sealed record NoSuchPrint(int Sheet, int Print) : Refusal($"There is no print {Print} on sheet {Sheet}. Nothing was changed.");

    public sealed record NoSuchStep(int Step) : Refusal($"There is no step {Step} to go back to. Nothing was changed.");

    public sealed record NotAPlace() : Refusal("Say the place in mm from the left and from the leading edge, and a sheet that there is or the next. Nothing was changed.");

    public sealed record LastPrint() : Refusal("It is the only print of this run. Nothing was changed.");
}

/// <summary>What a person does to a layout.</summary>
public enum Edit
{
    Move = 1,
    Turn = 2,
    Keep = 3,
    LetGo = 4,
    TakeOut = 5,
    LayAgain = 6,
    GoBack = 7,
}

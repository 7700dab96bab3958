using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Control;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Control;

/// <summary>Writes down what was done to a printer, so that control plots show it when colours move.</summary>
public sealed class NoteEvent(RoomStore room, TimeProvider clock)
{
    private const int LongestNote = 100;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var (note, now) = (request.Note.Trim(), clock.GetUtcNow());
            if (await db.Printers.FindAsync([request.Printer], cancel) is null)
            {
                return new NoSuchPrinter(request.Printer);
            }

            if (!Enum.IsDefined(request.Kind) || note.Length > LongestNote || (request.Kind is EventKind.Other && note.Length == 0))
            {
                return new SayWhat();
            }

            var at = request.At ?? now;
            if (at > now)
            {
                return new NotYet(at);
            }

            var done = new PrinterEvent { Id = Guid.CreateVersion7(now), Printer = request.Printer, Kind = request.Kind, Note = note, At = at, By = request.By };
            db.PrinterEvents.Add(done);
            return new Done(done.InWords);
        }, cancel);

    /// <param name="At">When, if not now.</param>
    public sealed record Request(PersonName By, PrinterCode Printer, EventKind Kind, string Note = "", DateTimeOffset? At = null);

    public sealed record Done(string InWords);

    public sealed record NoSuchPrinter(PrinterCode Printer) : Refusal($"The room has no printer {Printer}. Nothing was written down.");

    public sealed record SayWhat() : Refusal($"Say in at most {LongestNote} letters what it was. Nothing was written down.");

    public sealed record NotYet(DateTimeOffset At) : Refusal($"{At:d MMM yyyy HH:mm} is not past yet. Nothing was written down.");
}

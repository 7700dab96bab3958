using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Printing;

/// <summary>Lets a sheet be handed over once more: the printer lost it, or a person took the job back at its panel.</summary>
public sealed class SendAgain(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.RunSheets.FindAsync([request.Run, request.Sheet], cancel) is not { } sheet)
            {
                return new NoSuchSheet(request.Run, request.Sheet);
            }

            (sheet.SentTo, sheet.SentAt, sheet.Job) = ("", null, null);
            sheet.Times++;
            return new Done(request.Run);
        }, cancel);

    public sealed record Request(int Run, int Sheet);

    public sealed record Done(int Run);

    public sealed record NoSuchSheet(int Run, int Sheet) : Refusal($"Run {Run} has no file of sheet {Sheet}.");
}

using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Runs;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Documents;

/// <summary>Makes the run card as a document to print, with the code that opens it on a phone.</summary>
public sealed class RunCardDocument(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Document>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var card = await RunCard.LoadAsync(db, request.Run, cancel);
        if (card is null)
        {
            return new NoSuchRun(request.Run);
        }

        var decision = card.Decided.Count == 0 ? null : string.Join("; ", card.Decided.Select(d => $"{d.What}: {d.Why} ({d.By})"));
        var address = RoomAddress.Of(await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel));
        return RunCardPages.Draw(card, decision, address, clock.GetLocalNow());
    }

    public sealed record Request(int Run);
}

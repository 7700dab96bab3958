using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Documents;

/// <summary>Makes the label of a lot, or a sheet of labels, to print and stick on the boxes.</summary>
public sealed class LotLabel(RoomStore room, TimeProvider clock)
{
    public async Task<Outcome<Document>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Lots.Count is 0 or > Request.Most || request.FirstFree is < 1 or > LabelPages.OnASheet)
        {
            return new CannotBeLaid();
        }

        await using var db = room.Open();
        var address = RoomAddress.Of(await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel));
        var labels = new List<LabelText>();
        foreach (var code in request.Lots)
        {
            var lot = await db.Lots.AsNoTracking().SingleOrDefaultAsync(l => l.Code == code, cancel);
            if (lot is null)
            {
                return new NoSuchLot(code);
            }

            labels.Add(LabelText.Of(
                lot,
                await db.Papers.AsNoTracking().SingleAsync(p => p.Code == lot.Paper, cancel),
                await db.Formats.AsNoTracking().SingleAsync(f => f.Code == lot.Format, cancel),
                (await db.BalanceAsync(code, cancel)).InRoom,
                clock.Today(),
                address));
        }

        return request.OnASheet ? LabelPages.Sheet(labels, request.FirstFree) : LabelPages.One(labels[0]);
    }

    /// <param name="Lots">Whose labels.</param>
    /// <param name="OnASheet">On an A4 sheet of 21; otherwise the first lot's alone on 100 × 62 mm.</param>
    /// <param name="FirstFree">The first label of the sheet that is not used yet, from 1.</param>
    public sealed record Request(IReadOnlyList<LotCode> Lots, bool OnASheet = false, int FirstFree = 1)
    {
        public const int Most = 210;

        /// <summary>Labels on one A4 sheet.</summary>
        public const int ASheet = LabelPages.OnASheet;
    }

    public sealed record CannotBeLaid() : Refusal($"Choose 1 to {Request.Most} lots, and a first free label from 1 to {LabelPages.OnASheet}. Nothing was drawn.");
}

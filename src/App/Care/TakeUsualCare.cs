using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Care;

namespace Goodsheet.App.Care;

/// <summary>Takes the usual rounds up for the room and for every printer that has none of that name yet.</summary>
public sealed class TakeUsualCare(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var known = await db.CareTasks.ToListAsync(cancel);
        var next = known.Count == 0 ? 1 : known.Max(t => t.Number) + 1;
        var added = new List<CareTask>();
        Add(UsualCare.OfTheRoom(next));
        foreach (var printer in await db.Printers.OrderBy(p => p.Code).Select(p => p.Code).ToListAsync(cancel))
        {
            Add(UsualCare.Of(printer, next + added.Count));
        }

        return new Done(added.Count);

        void Add(IReadOnlyList<CareTask> usual)
        {
            if (usual.All(u => known.All(k => (k.Name, k.Printer) != (u.Name, u.Printer))))
            {
                db.CareTasks.AddRange(usual);
                added.AddRange(usual);
            }
        }
    }, cancel);

    public sealed record Done(int Added);
}

using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.People;

/// <summary>Shuts a phone or screen out: lost, handed on, or signed out.</summary>
public sealed class RevokeDevice(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.Devices.SingleOrDefaultAsync(d => d.Id == request.Device, cancel) is not { } device)
            {
                return new NoSuchDevice();
            }

            device.RevokedAt ??= clock.GetUtcNow();
            return new Done(device.Name);
        }, cancel);

    public sealed record Request(Guid Device);

    public sealed record Done(string Name);

    public sealed record NoSuchDevice() : Refusal("This phone or screen is not in the list any more.");
}

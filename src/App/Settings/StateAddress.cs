using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Settings;

/// <summary>States the one address that phones reach the room by. It goes into every QR code from then on.</summary>
public sealed class StateAddress(RoomStore room)
{
    private const int Longest = 200;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var text = request.Address.Trim();
            if (text.Length > Longest
                || !Uri.TryCreate(text, UriKind.Absolute, out var address)
                || (address.Scheme != Uri.UriSchemeHttp && address.Scheme != Uri.UriSchemeHttps)
                || address.Host.Length == 0 || address.PathAndQuery != "/" || address.Fragment.Length > 0 || address.UserInfo.Length > 0)
            {
                return new NoAddress();
            }

            if (address.IsLoopback)
            {
                return new OnlyThisMachine();
            }

            var settings = await db.Settings.SingleOrDefaultAsync(cancel);
            if (settings is null)
            {
                db.Settings.Add(settings = new());
            }

            settings.Address = address.GetLeftPart(UriPartial.Authority);
            return new Done(settings.Address);
        }, cancel);

    public sealed record Request(string Address);

    /// <summary>The address, without a slash at its end.</summary>
    public sealed record Done(string Address);

    public sealed record NoAddress() : Refusal("An address is written like http://192.168.1.20:5080 or https://room.example, with nothing after it.");

    public sealed record OnlyThisMachine() : Refusal("That is this machine’s name for itself: on a phone it would mean the phone. State the machine’s address in the network.");
}

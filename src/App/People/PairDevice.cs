using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Lets a phone in for long, by the code from the desk screen.</summary>
public sealed class PairDevice(RoomStore room, TimeProvider clock)
{
    private const int LongestCode = 40;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var hash = DeviceToken.HashOf(BeginPairing.Plain(request.Code.Length > LongestCode ? "" : request.Code));
        var now = clock.GetUtcNow();

        // A wrong try is written down, so it is no refusal of the step.
        var tried = await room.ChangeAsync<Tried>(async db =>
        {
            if (await db.PairingCodes.Where(c => !c.Used).OrderByDescending(c => c.Until).FirstOrDefaultAsync(cancel) is not { } code)
            {
                return new Tried(null);
            }

            if (code.CodeHash != hash || !code.IsGood(now))
            {
                code.Tries++;
                return new Tried(null);
            }

            code.Used = true;
            var (token, device) = DeviceToken.Admit(Admission.Paired, code.Person, request.DeviceName, now);
            db.Devices.Add(device);
            return new Tried(new(code.Person, token, device.Until));
        }, cancel);
        return tried switch
        {
            { Granted: false } => tried.Refusal,
            { Value.Done: { } done } => done,
            _ => new CodeIsNoGood(),
        };
    }

    private sealed record Tried(Done? Done);

    public sealed record Request(string Code, string DeviceName)
    {
        /// <summary>Never the code: a request may end in a log.</summary>
        public override string ToString() => $"pairing of {DeviceName}";
    }

    public sealed record Done(PersonName Person, string Token, DateTimeOffset Until);

    public sealed record CodeIsNoGood() : Refusal(
        "This code is wrong, used or older than five minutes. Show a new one on the desk screen: People, Phones, Pair a phone.");
}

using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Care;

namespace Goodsheet.App.Care;

/// <summary>Writes down between what the room wishes its air, and where the figures come from.</summary>
public sealed class SetCareBands(RoomStore room)
{
    public async Task<CareBands> ShowAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.CareBands.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
    }

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var r = request;
        if (!(r.Coolest >= 0 && r.Coolest < r.Warmest && r.Warmest <= 45 && r.Driest >= 0 && r.Driest < r.Dampest && r.Dampest <= 100)
            || r.OpenDays is < 1 or > 3_650 || r.Source.Length > 200)
        {
            return new CannotBe();
        }

        if (await db.CareBands.SingleOrDefaultAsync(cancel) is not { } bands)
        {
            db.CareBands.Add(bands = new());
        }

        (bands.Coolest, bands.Warmest, bands.Driest, bands.Dampest, bands.OpenDays) = (r.Coolest, r.Warmest, r.Driest, r.Dampest, r.OpenDays);
        bands.Source = r.Source.Trim() is { Length: > 0 } source ? source : CareBands.NoSource;
        return new Done();
    }, cancel);

    public sealed record Request(double Coolest, double Warmest, double Driest, double Dampest, int OpenDays, string Source);

    public sealed record Done;

    public sealed record CannotBe() : Refusal("The lower figure comes first, the temperature is in °C from 0 to 45, the humidity from 0 to 100 %, and a box may stand open 1 to 3,650 days. Nothing was changed.");
}

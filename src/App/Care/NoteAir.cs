using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Care;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Care;

/// <summary>Writes down the air as it was read from an instrument on the wall.</summary>
public sealed class NoteAir(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        if (!ImportAir.CanBeRoomAir(request.Celsius, request.Humidity))
        {
            return new CannotBe(request.Celsius, request.Humidity);
        }

        var wish = new Wish(request.Command, request.By, clock.GetUtcNow());
        var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
        if (!before.Granted)
        {
            return before.Refusal;
        }

        var bands = await db.CareBands.FindAsync([CareBands.OnlyRow], cancel) ?? new();
        if (!before.Value)
        {
            db.Climate.Add(new() { At = wish.At, Temperature = request.Celsius, Humidity = request.Humidity });
        }

        return new Done(bands.HoldsTemperature(request.Celsius), bands.HoldsHumidity(request.Humidity));
    }, cancel);

    public sealed record Request(CommandId Command, PersonName By, double Celsius, double Humidity);

    public sealed record Done(bool TemperatureHolds, bool HumidityHolds);

    public sealed record CannotBe(double Celsius, double Humidity)
        : Refusal($"{Celsius} °C and {Humidity} % cannot be the air of a room. Temperature is typed in °C, humidity in per cent. Nothing was written down.");
}

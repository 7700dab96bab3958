using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Writes down a measuring instrument, or what has changed of it: its tile, its certificate.</summary>
public sealed class KeepInstrument(RoomStore room)
{
    private const int Longest = 60;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var serial = request.Serial.Trim();
        if (serial.Length is 0 or > Longest || request.Name.Trim().Length is 0 or > Longest || request.Tile.Length > Longest || request.CertificateMonths is < 1 or > 120)
        {
            return new CannotBe();
        }

        return await room.ChangeAsync<Done>(async db =>
        {
            var instrument = await db.Instruments.SingleOrDefaultAsync(i => i.Serial == serial, cancel);
            if (instrument is null)
            {
                instrument = new() { Serial = serial, Name = "" };
                db.Instruments.Add(instrument);
            }

            (instrument.Name, instrument.Tile) = (request.Name.Trim(), request.Tile.Trim());
            (instrument.CertifiedOn, instrument.CertificateMonths) = (request.CertifiedOn, request.CertificateMonths);
            return new Done(serial);
        }, cancel);
    }

    public sealed record Request(string Serial, string Name, string Tile = "", DateOnly? CertifiedOn = null, int CertificateMonths = 12);

    public sealed record Done(string Serial);

    public sealed record CannotBe() : Refusal($"An instrument has a serial and a name of at most {Longest} letters, and a certificate that holds for 1 to 120 months. Nothing was kept.");
}

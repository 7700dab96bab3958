using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Care;

namespace Goodsheet.App.Care;

/// <summary>The air in the room over some days, with what the room wishes.</summary>
public sealed class ShowAir(RoomStore room, TimeProvider clock)
{
    public const int MostDays = 400;

    public async Task<Page> RunAsync(int days, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var now = clock.GetUtcNow();
        var since = now.AddDays(-Math.Clamp(days, 1, MostDays));
        var readings = await db.Climate.AsNoTracking().Where(c => c.At >= since && c.At <= now).OrderBy(c => c.At).ToListAsync(cancel);
        var bands = await db.CareBands.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
        return new(bands, AirLog.Days(readings, clock.LocalTimeZone), AirLog.Gaps([.. readings.Select(r => r.At)]), readings.LastOrDefault());
    }

    public async Task<string> CsvAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var text = new StringBuilder("time_utc,temperature_c,humidity_percent\n");
        await foreach (var r in db.Climate.AsNoTracking().OrderBy(c => c.At).AsAsyncEnumerable().WithCancellation(cancel))
        {
            text.Append(CultureInfo.InvariantCulture, $"{r.At.UtcDateTime:yyyy-MM-ddTHH:mm:ssZ},{r.Temperature:0.##},{r.Humidity:0.##}\n");
        }

        return text.ToString();
    }

    public sealed record Page(CareBands Bands, IReadOnlyList<AirDay> Days, IReadOnlyList<AirGap> Gaps, ClimateReading? Latest);
}

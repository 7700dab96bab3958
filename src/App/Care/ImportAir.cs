using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Settings;

namespace Goodsheet.App.Care;

/// <summary>Takes the readings of a temperature and humidity logger in from its CSV, or only says what it would take.</summary>
public sealed class ImportAir(RoomStore room)
{
    public const int MostBytes = 32_000_000;
    private const int GapsSaid = 3;

    /// <summary>Outside of this an instrument is broken or a column is not what it seems. Our own choice, wide on purpose.</summary>
    public static bool CanBeRoomAir(double celsius, double humidity) => celsius is >= -20 and <= 60 && humidity is >= 0 and <= 100;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var settings = await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new RoomSettings();
        var zone = TimeZoneInfo.FindSystemTimeZoneById(settings.TimeZone);
        var read = LoggerCsv.Read(request.Csv, zone, request.Choices);
        if (!read.Granted)
        {
            return read.Refusal;
        }

        var (readings, findings) = (read.Value.Readings, read.Value.Findings.ToList());
        var (from, to) = (readings[0].At, readings[^1].At);
        var here = await db.Climate.AsNoTracking().Where(c => c.At >= from && c.At <= to).ToDictionaryAsync(c => c.At, cancel);
        var fresh = readings.Where(r => !here.ContainsKey(r.At)).ToList();
        var other = readings.Count(r => here.TryGetValue(r.At, out var known) && (known.Temperature, known.Humidity) != (r.Temperature, r.Humidity));
        if (readings.Count - fresh.Count - other is var again and > 0)
        {
            findings.Add($"{again} readings are here already.");
        }

        if (other > 0)
        {
            findings.Add($"{other} readings differ from what is here for the same time; what is here stands.");
        }

        findings.AddRange(read.Value.Gaps.Take(GapsSaid).Select(g => string.Create(CultureInfo.CurrentCulture,
            $"Nothing was read from {Local(g.From):d MMM yyyy HH:mm} to {Local(g.To):d MMM yyyy HH:mm}.")));
        if (read.Value.Gaps.Count > GapsSaid)
        {
            findings.Add($"{read.Value.Gaps.Count} gaps in all; the longest are named.");
        }

        if (!request.DryRun)
        {
            db.Climate.AddRange(fresh);
        }

        return new Done(fresh.Count, readings.Count, Local(from), Local(to), read.Value.Gaps.Count, findings, !request.DryRun);

        DateTimeOffset Local(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, zone);
    }, cancel);

    public sealed record Request(string Csv, LoggerChoices Choices, bool DryRun = false)
    {
        // A file is long, and a request is written where it is asked.
        private bool PrintMembers(StringBuilder text)
        {
            text.Append(CultureInfo.InvariantCulture, $"{Csv.Length} letters, {Choices}, {DryRun}");
            return true;
        }
    }

    /// <param name="Fresh">Readings that were not here yet.</param>
    /// <param name="Read">Readings in the file.</param>
    /// <param name="Findings">What was odd about it, and what was done.</param>
    public sealed record Done(int Fresh, int Read, DateTimeOffset From, DateTimeOffset To, int Gaps, IReadOnlyList<string> Findings, bool TakenIn);
}

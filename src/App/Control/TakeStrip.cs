using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Profiles;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Control;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Control;

/// <summary>Takes a strip that was read into the room, lays it on the control chart, and lets the profile's standing follow.</summary>
public sealed class TakeStrip(RoomStore room, FileShelf files, TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (!files.Has(request.FileHash))
        {
            return new NoSuchFile(request.FileName);
        }

        await using var db = room.Open();
        if (await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == request.Profile, cancel) is not { } watched)
        {
            return new NoSuchProfile(request.Profile);
        }

        if (await db.ReferenceAsync(watched, cancel) is not { } chart)
        {
            return new NoChart(request.Profile);
        }

        var compared = await StripComparison.ReadAsync(
            files.PathOf(chart.FileHash), files.PathOf(request.FileHash), files.Has(watched.FileHash) ? files.PathOf(watched.FileHash) : null, cancel,
            ChartReading.ConditionOf(chart.MCondition));
        if (!compared.Granted)
        {
            return compared.Refusal;
        }

        var (verdict, shift) = (compared.Value.Verdict, compared.Value.Shift);
        return await room.ChangeAsync<Done>(async change =>
        {
            var strips = await change.StripReadings.Where(s => s.Profile == request.Profile).ToListAsync(cancel);
            if (strips.FirstOrDefault(s => s.FileHash == request.FileHash) is { } again)
            {
                return new Done(again.Number, verdict);
            }

            var at = request.ReadAt ?? clock.GetUtcNow();
            if (at > clock.GetUtcNow() || strips.Any(s => s.At > at))
            {
                return new OutOfOrder(at, strips.Count == 0 ? clock.GetUtcNow() : strips.Max(s => s.At));
            }

            var strip = new StripReading
            {
                Number = (await change.StripReadings.MaxAsync(s => (int?)s.Number, cancel) ?? 0) + 1,
                Profile = request.Profile,
                MeanError = verdict.Mean,
                MaxError = verdict.Largest,
                At = at,
                By = request.By,
                Note = request.Note.Trim(),
                FileName = request.FileName,
                FileHash = request.FileHash,
                Patches = shift.Patches,
                ShiftL = shift.Centre.L,
                ShiftA = shift.Centre.A,
                ShiftB = shift.Centre.B,
                Shape = shift.Shape,
                Verdict = JsonSerializer.Serialize(verdict),
            };
            change.StripReadings.Add(strip);
            var profile = await change.Profiles.SingleAsync(p => p.Number == request.Profile, cancel);
            var tolerance = await (
                from condition in change.Conditions
                join set in change.Tolerances on condition.Tolerance equals set.Name
                where condition.Code == profile.Condition
                select set).SingleAsync(cancel);
            var last = StripHistory.Of([.. strips, strip], await change.TrustedAgainAsync(profile.Number, cancel))[^1];
            Stand(profile, last, verdict, verdict.Hold(tolerance).FirstOrDefault(h => h.IsOver));
            return new Done(strip.Number, verdict);
        }, cancel);
    }

    // A profile nobody has trusted yet stays new, and a retired one retired, whatever a strip says.
    private static void Stand(Profile profile, WatchedStrip last, StripVerdict verdict, Tolerance.Held? over)
    {
        if (profile.Standing is not (Standing.Trusted or Standing.Due or Standing.Drifting))
        {
            return;
        }

        if (last.Moved || verdict.PrintedWrong)
        {
            (profile.Standing, profile.StandingWhy) = (Standing.Drifting, $"strip {last.Strip.Number}: {verdict.InWords}");
            return;
        }

        if (over is not null)
        {
            (profile.Standing, profile.StandingWhy) = (Standing.Drifting, string.Create(
                CultureInfo.CurrentCulture, $"strip {last.Strip.Number}: {char.ToLowerInvariant(over.What[0])}{over.What[1..]}, {over.Shows:0.0} where {over.MayBe:0.0} is allowed"));
            return;
        }

        profile.CheckedAt = last.Strip.At;
        if (profile.Standing is not Standing.Trusted)
        {
            (profile.Standing, profile.StandingWhy) = (Standing.Trusted, $"strip {last.Strip.Number} stands where strips usually do");
        }
    }

    public sealed record Request(
        PersonName By, string FileHash, string FileName, int Profile, string Note = "", DateTimeOffset? ReadAt = null);

    public sealed record Done(int Strip, StripVerdict Verdict);

    public sealed record NoSuchProfile(int Profile) : Refusal($"The room has no profile {Profile}.");

    public sealed record NoChart(int Profile)
        : Refusal($"Profile {Profile} was brought in, and no chart of its printing condition was read here, so there is nothing to hold a strip against. Print a whole chart as the profile's prints are printed but without a profile, read it and bring it in.");

    public sealed record OutOfOrder(DateTimeOffset At, DateTimeOffset Last)
        : Refusal($"This strip was read on {At:d MMM yyyy HH:mm}, which is not after the last one ({Last:d MMM yyyy HH:mm}) or not yet past. Strips are taken in the order they were read.");
}

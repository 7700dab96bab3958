using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>The keeper trusts a profile, or retires it, with the reason kept.</summary>
public sealed class DecideProfile(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var profile = await db.Profiles.FindAsync([request.Profile], cancel);
            if (profile is null)
            {
                return new NoSuchProfile(request.Profile);
            }

            if (request.Standing is not (Standing.Trusted or Standing.Retired) || request.Why.Trim().Length == 0)
            {
                return new NoReason();
            }

            if (profile.Standing == request.Standing)
            {
                return new Done(profile.Number);
            }

            (profile.Standing, profile.StandingWhy) = (request.Standing, $"{request.Why.Trim()} ({request.By})");
            profile.CheckedAt = request.Standing is Standing.Trusted ? clock.GetUtcNow() : profile.CheckedAt;
            Note(db, profile.Number, request.Standing, request.Why.Trim(), request.By);
            // One profile of a printing condition is the one to print with.
            var before = request.Standing is not Standing.Trusted ? [] : await db.Profiles.Where(p =>
                p.Condition == profile.Condition && p.Number != profile.Number && (p.Standing == Standing.Trusted || p.Standing == Standing.Due || p.Standing == Standing.Drifting)).ToListAsync(cancel);
            foreach (var other in before)
            {
                (other.Standing, other.StandingWhy) = (Standing.Retired, $"profile {profile.Number} took its place ({request.By})");
                Note(db, other.Number, Standing.Retired, $"profile {profile.Number} took its place", request.By);
            }

            return new Done(profile.Number);
        }, cancel);

    private void Note(RoomDb db, int profile, Standing standing, string why, PersonName by) => db.Decisions.Add(new()
    {
        Id = Guid.CreateVersion7(),
        About = $"profile {profile}",
        What = standing is Standing.Trusted ? "trusted" : "retired",
        Why = why,
        At = clock.GetUtcNow(),
        By = by,
    });

    public sealed record Request(PersonName By, int Profile, Standing Standing, string Why);

    public sealed record Done(int Profile);

    public sealed record NoSuchProfile(int Profile) : Refusal($"The room has no profile {Profile}.");

    public sealed record NoReason() : Refusal("Say why: the reason stays with the profile.");
}

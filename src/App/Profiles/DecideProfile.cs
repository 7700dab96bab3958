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
            db.Decisions.Add(new()
            {
                Id = Guid.CreateVersion7(),
                About = $"profile {profile.Number}",
                What = request.Standing is Standing.Trusted ? "trusted" : "retired",
                Why = request.Why.Trim(),
                At = clock.GetUtcNow(),
                By = request.By,
            });
            return new Done(profile.Number);
        }, cancel);

    public sealed record Request(PersonName By, int Profile, Standing Standing, string Why);

    public sealed record Done(int Profile);

    public sealed record NoSuchProfile(int Profile) : Refusal($"The room has no profile {Profile}.");

    public sealed record NoReason() : Refusal("Say why: the reason stays with the profile.");
}

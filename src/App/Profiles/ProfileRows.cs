using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Profiles;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>The record of a profile that was just made, whatever it was made from.</summary>
internal static class ProfileRows
{
    public static async Task<Profile> NewProfileAsync(
        this RoomDb db, ConditionCode condition, int? reading, string name, string hash, ProfileWorth worth, Made made, CancellationToken cancel) => new()
        {
            Number = (await db.Profiles.MaxAsync(p => (int?)p.Number, cancel) ?? 0) + 1,
            Condition = condition,
            Version = (await db.Profiles.Where(p => p.Condition == condition).MaxAsync(p => (int?)p.Version, cancel) ?? 0) + 1,
            Name = name,
            FileHash = hash,
            MadeFrom = reading,
            MadeAt = made.At,
            By = made.By,
            MeanError = worth.Judged.Mean.Value,
            P95Error = worth.Judged.P95.Value,
            MaxError = worth.Judged.Largest.Value,
            GamutVolume = worth.Gamut?.Volume,
            Worth = JsonSerializer.Serialize(WorthRecord.Of(worth)),
            StandingWhy = made.Why,
        };

    /// <param name="At">When.</param>
    /// <param name="By">Who asked for it.</param>
    /// <param name="Why">Why it stands as it does at first.</param>
    public sealed record Made(DateTimeOffset At, PersonName By, string Why);
}

using System.Buffers.Text;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>Gives a key to a named thing that brings orders over HTTP. It is shown once.</summary>
public sealed class IssueKey(RoomStore room, TimeProvider clock)
{
    /// <summary>What every key begins with, so that one that got about can be told.</summary>
    public const string Prefix = "goodsheet_";

    private const int Bytes = 32;
    private const int LongestName = 60;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var name = request.Name.Trim();
            if (name.Length is 0 or > LongestName || name.Any(char.IsControl) || new PersonName(name).IsTheRooms)
            {
                return new NoName();
            }

            if (await db.ApiKeys.AnyAsync(k => k.Name == name, cancel) || await db.People.AnyAsync(p => p.Name == new PersonName(name), cancel))
            {
                return new NameIsTaken(name);
            }

            var key = Prefix + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes));
            db.ApiKeys.Add(new() { Id = Guid.CreateVersion7(clock.GetUtcNow()), Name = name, KeyHash = DeviceToken.HashOf(key), Since = clock.GetUtcNow(), By = request.By });
            return new Done(name, key);
        }, cancel);

    public sealed record Request(PersonName By, string Name);

    public sealed record Done(string Name, string Key)
    {
        /// <summary>Never the key: an answer may end in a log.</summary>
        public override string ToString() => $"key of {Name}";
    }

    public sealed record NoName() : Refusal($"What is the key for? A name of at most {LongestName} letters.");

    public sealed record NameIsTaken(string Name) : Refusal($"“{Name}” names a person or a key already, perhaps one that was shut out. Take another name: orders carry it.");
}

/// <summary>Shuts a key out for good.</summary>
public sealed class RevokeKey(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.ApiKeys.SingleOrDefaultAsync(k => k.Id == request.Key, cancel) is not { } key)
            {
                return new NoSuchKey();
            }

            key.RevokedAt ??= clock.GetUtcNow();
            return new Done(key.Name);
        }, cancel);

    public sealed record Request(Guid Key);

    public sealed record Done(string Name);

    public sealed record NoSuchKey() : Refusal("This key is not in the list any more.");
}

/// <summary>The keys, and whose one is.</summary>
public sealed class ShowKeys(RoomStore room)
{
    public async Task<IReadOnlyList<ApiKey>> RunAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.ApiKeys.AsNoTracking().OrderBy(k => k.Name).ToListAsync(cancel);
    }

    /// <summary>The name of the key that is brought; null when it is none, or was shut out.</summary>
    public async Task<PersonName?> BearerAsync(string key, CancellationToken cancel = default)
    {
        if (!key.StartsWith(IssueKey.Prefix, StringComparison.Ordinal) || key.Length > 100)
        {
            return null;
        }

        var hash = DeviceToken.HashOf(key);
        await using var db = room.Open();
        var found = await db.ApiKeys.AsNoTracking().SingleOrDefaultAsync(k => k.KeyHash == hash && k.RevokedAt == null, cancel);
        return found is null ? null : new PersonName(found.Name);
    }
}

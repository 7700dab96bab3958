namespace Goodsheet.Room.People;

/// <summary>Lets one named thing, such as a client's shop, bring orders over HTTP.</summary>
public sealed class ApiKey
{
    public required Guid Id { get; init; }

    /// <summary>What it is for: orders it brings carry this name.</summary>
    public required string Name { get; init; }

    /// <summary>The hash of the key. The key itself is shown once and is nowhere in the room's records.</summary>
    public required string KeyHash { get; init; }

    public required DateTimeOffset Since { get; init; }

    public required PersonName By { get; init; }

    public DateTimeOffset? RevokedAt { get; set; }
}

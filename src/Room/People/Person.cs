namespace Goodsheet.Room.People;

/// <summary>A person who works in the room.</summary>
/// <remarks>On the room's own machine a name is picked, not proved; from anywhere else it is proved by the secret.</remarks>
public sealed class Person
{
    public required PersonName Name { get; init; }

    /// <summary>The PIN or password, hashed; none for a person who only works at the room's own machine.</summary>
    public string? SecretHash { get; set; }

    public required DateTimeOffset Since { get; init; }

    /// <summary>Someone who left keeps their lines in the ledger but cannot be picked any more.</summary>
    public bool Gone { get; set; }
}

/// <summary>A phone or another screen that was paired once, and for whom.</summary>
public sealed class PairedDevice
{
    public required Guid Id { get; init; }

    public required string Name { get; init; }

    /// <summary>The hash of the token in its cookie. The token itself is nowhere in the room's records.</summary>
    public required string TokenHash { get; init; }

    public required PersonName Person { get; init; }

    public required DateTimeOffset PairedAt { get; init; }

    public DateTimeOffset? RevokedAt { get; set; }
}

/// <summary>A code shown on the desk screen that pairs one phone, once, for a short time.</summary>
public sealed class PairingCode
{
    public required string CodeHash { get; init; }

    public required PersonName Person { get; init; }

    public required DateTimeOffset Until { get; init; }

    public bool Used { get; set; }
}

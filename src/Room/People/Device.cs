namespace Goodsheet.Room.People;

/// <summary>A screen that works in the room from elsewhere: a phone that was paired, or one where someone signed in.</summary>
public sealed class Device
{
    public required Guid Id { get; init; }

    public required string Name { get; init; }

    public required Admission How { get; init; }

    /// <summary>The hash of the token in its cookie. The token itself is nowhere in the room's records.</summary>
    public required string TokenHash { get; init; }

    public required PersonName Person { get; init; }

    public required DateTimeOffset Since { get; init; }

    public required DateTimeOffset Until { get; init; }

    public DateTimeOffset? RevokedAt { get; set; }

    public bool IsAdmitted(DateTimeOffset now) => RevokedAt is null && now < Until;
}

/// <summary>How a screen was let in.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum Admission
{
    /// <summary>By a code from the desk screen. For long, for the daily work, not for people and phones.</summary>
    Paired = 1,

    /// <summary>By name and PIN or password. For a working day.</summary>
    SignedIn = 2,
}

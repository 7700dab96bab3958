namespace Goodsheet.Room.People;

/// <summary>Something the keeper decided against or beyond a rule: kept with its reason, shown where it mattered.</summary>
public sealed class Decision
{
    public required Guid Id { get; init; }

    /// <summary>What it is about, such as "profile 12", "lot 1204" or "order 31".</summary>
    public required string About { get; init; }

    /// <summary>What was decided: "trusted again", "print on out-of-date paper", "go on while drifting".</summary>
    public required string What { get; init; }

    public required string Why { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }
}

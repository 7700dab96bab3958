namespace Goodsheet.Room.People;

/// <summary>Who did it. Every move, decision and reading carries one.</summary>
public readonly record struct PersonName(string Value)
{
    /// <summary>What the room does by itself: imports, the demonstration, checks on a schedule.</summary>
    public static PersonName TheRoom { get; } = new("the room");

    public override string ToString() => Value;
}

namespace Goodsheet.Room.People;

/// <summary>Who did it. Every move, decision and reading carries one.</summary>
public readonly record struct PersonName(string Value)
{
    /// <summary>What the room does by itself: imports, the demonstration, checks on a schedule.</summary>
    public static PersonName TheRoom { get; } = new("the room");

    /// <summary>Nobody said who they are, at the room's own machine.</summary>
    public static PersonName Somebody { get; } = new("somebody at the desk");

    /// <summary>A name of the room's own that no person may take.</summary>
    public bool IsTheRooms =>
        Value.Equals(TheRoom.Value, StringComparison.OrdinalIgnoreCase) || Value.Equals(Somebody.Value, StringComparison.OrdinalIgnoreCase);

    public override string ToString() => Value;
}

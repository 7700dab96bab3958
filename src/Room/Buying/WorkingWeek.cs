namespace Goodsheet.Room.Buying;

/// <summary>The days of the week on which somebody works.</summary>
/// <param name="Days">Bit 0 is Monday, bit 6 Sunday, as ISO 8601 counts them; .NET counts Sunday as 0.</param>
public readonly record struct WorkingWeek(int Days)
{
    private const int AllDays = 0b1111111;

    public static WorkingWeek MondayToFriday { get; } = new(0b0011111);

    public static WorkingWeek EveryDay { get; } = new(AllDays);

    /// <summary>Whether it is a week at all: a supplier works on one day at least.</summary>
    public bool HasADay => (Days & AllDays) != 0 && (Days & ~AllDays) == 0;

    public static WorkingWeek Of(IEnumerable<DayOfWeek> days) => new(days.Aggregate(0, (bits, day) => bits | (1 << Bit(day))));

    public bool Includes(DayOfWeek day) => (Days & (1 << Bit(day))) != 0;

    private static int Bit(DayOfWeek day) => ((int)day + 6) % 7;
}

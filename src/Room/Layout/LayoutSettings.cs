using Goodsheet.Room.Units;

namespace Goodsheet.Room.Layout;

/// <summary>What the room says of how prints are laid on paper; one row.</summary>
public sealed class LayoutSettings
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    /// <summary>Clearance for the knife between two prints.</summary>
    public Length Gutter { get; set; } = Length.FromMillimetres(4);

    /// <summary>How many days the promises of prints in one run may lie apart; 0 for the same day only.</summary>
    public int MixDays { get; set; } = 2;

    /// <summary>A roll that is shorter cannot be loaded any more, so a run had better use it up.</summary>
    public Length LeastRoll { get; set; } = Length.FromMillimetres(600);

    /// <summary>An offcut whose shorter side is less is not kept.</summary>
    public Length LeastOffcut { get; set; } = Length.FromMillimetres(150);

    /// <summary>Whether prints promised on two days may share a run.</summary>
    public bool MayShare(DateOnly one, DateOnly other) => Math.Abs(one.DayNumber - other.DayNumber) <= MixDays;

    /// <summary>Whether so much of a roll is something, but too little to be loaded again.</summary>
    public bool IsTooShort(Length rest) => rest > Length.Zero && rest < LeastRoll;
}

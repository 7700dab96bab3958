namespace Goodsheet.Room.Runs;

/// <summary>What the room says of its day, one row: who is there, how much may dry, and what the order of runs is weighed with.</summary>
public sealed class PlanSettings
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    /// <summary>Who can feed printers at the same time.</summary>
    public int People { get; set; } = 1;

    /// <summary>Places on the drying table, one print each; 0 if room to dry is no matter.</summary>
    public int DryPlaces { get; set; }

    public double MinutesPerPaperChange { get; set; } = 4;

    /// <summary>Minutes by hand to feed one load: one sheet, two or three, or a stack.</summary>
    public double MinutesPerLoad { get; set; } = 1.5;

    /// <summary>From the end of a test strip until somebody has looked at it: long enough to dry a little. Common practice, no source.</summary>
    public double MinutesPerStrip { get; set; } = 20;

    /// <summary>An hour late weighs as much as so many minutes of a printer.</summary>
    public double MinutesPerHourLate { get; set; } = 120;

    /// <summary>A ml purged weighs as much as so many minutes of a printer, until the room's rates say what both cost.</summary>
    public double MinutesPerMl { get; set; } = 1.5;

    /// <summary>A new plan must save so many minutes before the one at hand is shuffled.</summary>
    public double MinutesWorthMoving { get; set; } = 5;

    /// <summary>Days on which the room works, as bits: 1 Sunday, 2 Monday, 4 Tuesday and so on.</summary>
    public int WorkingDays { get; set; } = 0b0111110;

    public bool WorksOn(DayOfWeek day) => (WorkingDays & (1 << (int)day)) != 0;
}

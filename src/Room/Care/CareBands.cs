namespace Goodsheet.Room.Care;

/// <summary>Between what the room wishes its air, and how long a box may stand open. One row, edited by the room.</summary>
/// <remarks>The figures a new room begins with are common practice, no source; a maker's own sheet goes before them.</remarks>
public sealed class CareBands
{
    public const int OnlyRow = 1;
    public const string NoSource = "common practice, no source";

    public int Id { get; init; } = OnlyRow;

    /// <summary>In degrees Celsius.</summary>
    public double Coolest { get; set; } = 18;

    public double Warmest { get; set; } = 25;

    /// <summary>Relative, in per cent.</summary>
    public double Driest { get; set; } = 40;

    public double Dampest { get; set; } = 60;

    /// <summary>A box open for longer is looked at before a client's print is made from it.</summary>
    public int OpenDays { get; set; } = 90;

    /// <summary>Where the figures come from.</summary>
    public string Source { get; set; } = NoSource;

    public bool HoldsTemperature(double celsius) => celsius >= Coolest && celsius <= Warmest;

    public bool HoldsHumidity(double percent) => percent >= Driest && percent <= Dampest;
}

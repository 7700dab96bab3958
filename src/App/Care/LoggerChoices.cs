using Goodsheet.Room;
using Goodsheet.Room.Care;

namespace Goodsheet.App.Care;

/// <summary>What a logger's file may leave open, and only a person can say.</summary>
public sealed record LoggerChoices(TemperatureUnit? Unit = null, DateOrder? Order = null);

public enum TemperatureUnit
{
    Celsius = 1,
    Fahrenheit = 2,
}

public enum DateOrder
{
    DayFirst = 1,
    MonthFirst = 2,
}

/// <summary>The readings of a logger's file in the order of time, and everything that was done to them.</summary>
public sealed record LoggerFile(IReadOnlyList<ClimateReading> Readings, IReadOnlyList<AirGap> Gaps, IReadOnlyList<string> Findings);

public sealed record NotALoggersFile(string Why) : Refusal($"{Why} Nothing was taken in.");

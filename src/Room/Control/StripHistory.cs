using Goodsheet.Room.Profiles;

namespace Goodsheet.Room.Control;

/// <summary>The strips of one profile laid on its control chart, oldest first.</summary>
public static class StripHistory
{
    /// <summary>The ways in which the centre of a strip goes when the paper yellows, when all inks thicken, when one ink does.</summary>
    /// <remarks>Near enough for every paper, since they are only looked along: decision 0150.</remarks>
    public static IReadOnlyList<LabShift> Named { get; } = [new(-0.1, 0.05, 1), new(-1, -0.05, 0.1), new(-0.35, -0.6, -0.45)];

    /// <summary>Folds the strips.</summary>
    /// <param name="strips">Of one profile, in any order.</param>
    /// <param name="settled">When the keeper trusted it again: what came before no longer pulls.</param>
    public static IReadOnlyList<WatchedStrip> Of(IEnumerable<StripReading> strips, IReadOnlyCollection<DateTimeOffset> settled)
    {
        var chart = new ControlChart(HouseNoise.Usual, Named);
        var found = new List<WatchedStrip>();
        var before = DateTimeOffset.MinValue;
        foreach (var strip in strips.OrderBy(s => s.At).ThenBy(s => s.Number))
        {
            if (settled.Any(s => s > before && s <= strip.At))
            {
                chart.BeginAgain();
            }

            found.Add(new(strip, chart.Read(new(strip.ShiftL, strip.ShiftA, strip.ShiftB), strip.Shape)));
            before = strip.At;
        }

        return found;
    }
}

/// <summary>A strip and what the chart says at it.</summary>
public sealed record WatchedStrip(StripReading Strip, ControlPoint Point)
{
    public bool Moved => Point.Alarms is not Alarms.None;
}

namespace Goodsheet.Room.Control;

/// <summary>Why the chart says that a condition has moved. Several may hold at once.</summary>
[Flags]
public enum Alarms
{
    None = 0,

    /// <summary>This strip alone is far off.</summary>
    Jump = 1,

    /// <summary>Strip after strip has gone the same way.</summary>
    Wander = 2,

    /// <summary>Strip after strip has gone the way of a cause that has a name.</summary>
    Named = 4,

    /// <summary>The centre stands, but the patches have moved against each other.</summary>
    Shape = 8,
}

/// <summary>What one strip adds to the chart.</summary>
/// <param name="Alone">Its own distance from the usual, in usual steps.</param>
/// <param name="Running">The distance of the running mean, in standard deviations of that mean.</param>
/// <param name="Shape">Patches about their centre, over what is usual.</param>
/// <param name="Shift">Its own shift from the usual in L*a*b*.</param>
/// <param name="Drift">The running mean in L*a*b*.</param>
/// <param name="Alarms">What was found.</param>
/// <param name="Direction">Which of the named directions was crossed farthest; none when none was.</param>
/// <param name="Reach">How near it came to the limit that is nearest: 1 is on the limit.</param>
/// <param name="Settled">False in the start-up, while the usual is still being learnt.</param>
public sealed record ControlPoint(
    double Alone, double Running, double Shape, LabShift Shift, LabShift Drift, Alarms Alarms, int? Direction, double Reach, bool Settled);

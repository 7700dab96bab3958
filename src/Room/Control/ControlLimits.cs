namespace Goodsheet.Room.Control;

/// <summary>Where the control chart of a condition says "moved".</summary>
/// <param name="Weight">How much the newest strip counts in the running mean, 0 to 1.</param>
/// <param name="Wander">The running mean, in any direction: its squared distance over its own variance.</param>
/// <param name="Named">The running mean along the direction of a cause that has a name: standard deviations, either way.</param>
/// <param name="Jump">One strip alone: its squared distance in usual steps.</param>
/// <param name="Shape">Patches about the centre of their strip: root mean square over what is usual.</param>
/// <remarks>
/// A running mean finds small moves soon, one strip alone finds large ones at once, and looking along the few
/// directions in which printers do move finds those a strip sooner. Each is set so rare that together they cry wolf
/// once in 500 strips or more. Found by simulation: see bench/results/control.md and decision 0150.
/// </remarks>
public sealed record ControlLimits(double Weight, double Wander, double Named, double Jump, double Shape)
{
    public static ControlLimits Usual { get; } = new(0.14, 14.4, 3.43, 24, 1.6);

    /// <summary>How many strips are read before the chart is called settled.</summary>
    public const int StartUp = 8;

    /// <summary>How many strips may still move the centre.</summary>
    public const int LearnsFor = 100;

    /// <summary>How many strips the noise that was believed before is worth.</summary>
    public const int NoiseWorth = 25;
}

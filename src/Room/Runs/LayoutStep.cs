using Goodsheet.Room.People;

namespace Goodsheet.Room.Runs;

/// <summary>A run's layout as it was after a person changed it; number 0 is how it was laid at first.</summary>
public sealed class LayoutStep
{
    public required int Run { get; init; }

    public required int Number { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    /// <summary>What was changed, in words.</summary>
    public required string What { get; init; }

    /// <summary>As <see cref="Run.Layout"/>.</summary>
    public required string Layout { get; init; }
}

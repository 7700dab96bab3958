using Goodsheet.Room.Papers;

namespace Goodsheet.Room.Runs;

/// <summary>What becomes of a run when everybody goes home.</summary>
public enum AfterHours
{
    /// <summary>It is over before the room closes.</summary>
    EndsInTime = 1,

    /// <summary>A stack or a roll feeds itself: it prints on with nobody there.</summary>
    PrintsOn = 2,

    /// <summary>Sheets are fed by hand: what is not fed by then waits for the morning.</summary>
    WaitsForHands = 3,
}

/// <summary>Says it.</summary>
public static class AfterHoursRule
{
    /// <param name="feed">How the paper goes in.</param>
    /// <param name="ends">When the run is over, as it was reckoned.</param>
    /// <param name="closes">When the last person goes; now, if the room is closed already.</param>
    public static AfterHours Of(Feed feed, DateTimeOffset ends, DateTimeOffset closes) =>
        ends <= closes ? AfterHours.EndsInTime : PrintTime.KeepsAPerson(feed) ? AfterHours.WaitsForHands : AfterHours.PrintsOn;
}

namespace Goodsheet.App.Demo;

/// <summary>A clock that is put forward by hand, so that the room's own use cases write moves with the dates of the past.</summary>
internal sealed class SimulatedClock(TimeZoneInfo zone, DateTimeOffset now) : TimeProvider
{
    private long ticks;

    public DateTimeOffset Now { get; private set; } = now;

    public override TimeZoneInfo LocalTimeZone => zone;

    public override long TimestampFrequency => 10;

    public override DateTimeOffset GetUtcNow() => Now.ToUniversalTime();

    /// <summary>Every look takes a second of it: a search that asks how long it may go on ends at once, and always at the same place.</summary>
    public override long GetTimestamp() => Interlocked.Add(ref ticks, TimestampFrequency);

    /// <summary>Puts it to an hour of a day in the room, never back.</summary>
    public void Set(DateOnly day, double hour) => Set(At(day, hour));

    public void Set(DateTimeOffset instant) => Now = instant > Now ? instant : Now.AddSeconds(1);

    /// <remarks>An hour that a clock change leaves out is taken after the change.</remarks>
    public DateTimeOffset At(DateOnly day, double hour)
    {
        var local = day.ToDateTime(TimeOnly.MinValue).AddHours(hour);
        return new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
    }
}

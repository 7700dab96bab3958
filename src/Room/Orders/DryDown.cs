namespace Goodsheet.Room.Orders;

/// <summary>When the prints of an order have dried: until then nothing lies on them, and no further step is taken.</summary>
public static class DryDown
{
    /// <summary>When they all are dry; none when no run of them is known.</summary>
    /// <remarks>A print counts from the end of the run that made it, which is no earlier than the print itself.</remarks>
    public static DateTimeOffset? At(IReadOnlyList<Made> prints) => prints.Max(p => p.LastAt?.AddHours(p.Hours));

    /// <summary>Why they are not dry yet; none when they are.</summary>
    /// <param name="prints">The order's prints.</param>
    /// <param name="now">The instant.</param>
    /// <param name="zone">Where the room's clock hangs: the refusal says the time by it.</param>
    public static Refusal? Wait(IReadOnlyList<Made> prints, DateTimeOffset now, TimeZoneInfo zone) =>
        prints.Sum(p => p.ToPrint) is > 0 and var open ? new NotMade(open)
        : At(prints) is { } at && at > now ? new Drying(TimeZoneInfo.ConvertTime(at, zone))
        : null;

    /// <summary>Why a step may not be ticked before its dry-down is; none when it may.</summary>
    public static Refusal? Before(IReadOnlyList<FinishStep> steps, FinishStep step) =>
        step.Kind is not FinishKind.DryDown && steps.Any(s => s.Kind is FinishKind.DryDown && s.DoneAt is null) ? new ComesFirst() : null;

    /// <param name="LastAt">The end of the last run that made good ones; none when no run is known.</param>
    /// <param name="Hours">What their paper takes to dry, in hours, 0 or more.</param>
    /// <param name="ToPrint">How many are not made yet.</param>
    public sealed record Made(DateTimeOffset? LastAt, double Hours, int ToPrint);

    public sealed record NotMade(int Prints)
        : Refusal($"{Prints} {(Prints == 1 ? "print is" : "prints are")} still to be made: what is not printed cannot be dry. Nothing was ticked.");

    public sealed record Drying(DateTimeOffset At)
        : Refusal($"The prints are dry on {At:d MMM} at {At:HH:mm}. To go on before that, say why. Nothing was ticked.");

    public sealed record ComesFirst() : Refusal("The prints have to dry first: that step is not ticked yet. Nothing was ticked.");
}

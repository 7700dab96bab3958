namespace Goodsheet.Room.Control;

/// <summary>How much a profile wants a strip: 1 and more is due.</summary>
/// <param name="Risk">The sum of what speaks for it.</param>
/// <param name="Why">The weightiest reason, in words.</param>
/// <remarks>Weights are ours: a month, 150 prints or any change of what must stay alike each make one due alone; each
/// alarm of the last half year makes the waits a third shorter than they were.</remarks>
public sealed record StripDue(double Risk, string Why)
{
    private const double Days = 30;
    private const double Prints = 150;
    private const double PerAlarm = 0.5;

    public bool IsDue => Risk >= 1;

    /// <summary>Weighs them.</summary>
    /// <param name="days">Since the last check.</param>
    /// <param name="prints">Made since.</param>
    /// <param name="alarms">Of its condition in the last half year.</param>
    /// <param name="changed">What changed since the last check, in words; none if nothing did.</param>
    public static StripDue Of(int days, int prints, int alarms, string? changed)
    {
        var waits = ((days / Days) + (prints / Prints)) * (1 + (PerAlarm * alarms));
        var age = $"{days} {(days == 1 ? "day" : "days")} and {prints} {(prints == 1 ? "print" : "prints")} since its last check";
        return changed is not null ? new(1 + waits, $"{changed} since its last check")
            : new(waits, alarms == 0 ? age : $"{age}, and it moved {(alarms == 1 ? "once" : $"{alarms} times")} in half a year");
    }
}

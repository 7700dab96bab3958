using Goodsheet.App.Buying;
using Goodsheet.Room.Buying;

namespace Goodsheet.Web.Buying;

/// <summary>What a person asks the room to be run forward with.</summary>
public sealed class AheadForm
{
    public List<int> Days { get; set; } = [];

    public double AtOnce { get; set; } = 98;

    public string Still { get; set => field = value ?? ""; } = "";

    public int StillDays { get; set; } = 30;

    public string Dearer { get; set => field = value ?? ""; } = "";

    public double PerCent { get; set; } = 10;

    public static AheadForm New() => new() { Days = [0, 1, 2, 3, 4, 5, 6] };

    public RunAhead.Request Request() => new(
        WorkingWeek.Of(Days.Where(d => d is >= 0 and < 7).Select(d => (DayOfWeek)((d + 1) % 7))), AtOnce / 100,
        Still.Length > 0 ? new(Still) : null, StillDays, Dearer.Length > 0 ? new(Dearer) : null, PerCent);
}

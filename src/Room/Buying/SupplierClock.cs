namespace Goodsheet.Room.Buying;

/// <summary>When an order sent to a supplier comes, by the supplier's own clock and calendar.</summary>
/// <param name="Zone">The supplier's time zone.</param>
/// <param name="Works">The days it takes and packs orders; lead times count these.</param>
/// <param name="Delivers">The days its carrier comes.</param>
public sealed record SupplierClock(TimeZoneInfo Zone, Calendar Works, Calendar Delivers)
{
    /// <summary>Cut-offs looked through for the last that still makes a delivery day: a carrier comes at least once in so many.</summary>
    private const int MostCutOffs = 60;

    /// <summary>What an order sent at an instant may count on.</summary>
    public Promise Promise(TimeOnly cutOff, int leadDays, DateTimeOffset sent)
    {
        var counts = CountsFor(cutOff, sent);
        var comes = ComesOn(counts, leadDays);
        var last = counts;
        for (var i = 0; i < MostCutOffs && Next(last) is var next && ComesOn(next, leadDays) == comes; i++)
        {
            last = next;
        }

        return new(counts, comes, CutOffOn(last, cutOff), last, ComesOn(Next(last), leadDays));
    }

    public Promise Promise(Dispatch way, DateTimeOffset sent) => Promise(way.CutOff, way.LeadDays, sent);

    /// <summary>The instant of a time of day by the supplier's clock.</summary>
    /// <remarks>A time that a clock change leaves out is taken after the change; of one that comes twice the first.</remarks>
    public DateTimeOffset CutOffOn(DateOnly day, TimeOnly time)
    {
        var local = day.ToDateTime(time);
        if (Zone.IsInvalidTime(local))
        {
            var before = Zone.GetUtcOffset(local.AddHours(-6)); // well before the gap, on its near side
            return new(local - before, TimeSpan.Zero);
        }

        var offset = Zone.IsAmbiguousTime(local) ? Zone.GetAmbiguousTimeOffsets(local).Max() : Zone.GetUtcOffset(local);
        return new(local - offset, TimeSpan.Zero);
    }

    /// <summary>The working day an order sent at an instant counts for.</summary>
    public DateOnly CountsFor(TimeOnly cutOff, DateTimeOffset sent)
    {
        var day = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(sent, Zone).DateTime);
        var first = Works.OnOrAfter(day);
        return sent < CutOffOn(first, cutOff) ? first : Next(first);
    }

    public DateOnly ComesOn(DateOnly counts, int leadDays) => Delivers.OnOrAfter(Works.Plus(counts, leadDays));

    private DateOnly Next(DateOnly day) => Works.OnOrAfter(day.AddDays(1));
}

/// <summary>What an order may count on, and what comes of waiting.</summary>
/// <param name="CountsFor">The supplier's working day an order sent now counts for.</param>
/// <param name="ComesOn">When it comes.</param>
/// <param name="CutOff">Sent before this instant it still comes then.</param>
/// <param name="CutOffDay">The day of that instant by the supplier's clock.</param>
/// <param name="ThenComesOn">When it comes if it is sent at the cut-off or after.</param>
public sealed record Promise(DateOnly CountsFor, DateOnly ComesOn, DateTimeOffset CutOff, DateOnly CutOffDay, DateOnly ThenComesOn);

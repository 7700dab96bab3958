namespace Goodsheet.Room.Buying;

/// <summary>How a supplier is to be dealt with.</summary>
public enum Standing
{
    /// <summary>Too little came to say.</summary>
    New,

    /// <summary>It keeps its word.</summary>
    Rely,

    /// <summary>It mostly does: keep an eye on it.</summary>
    Watch,

    /// <summary>It often does not: say so to it.</summary>
    Talk,

    /// <summary>It seldom does: buy elsewhere what can be bought elsewhere.</summary>
    Leave,
}

/// <summary>A plain standing with its evidence: parts on time and complete, each judged together with what all suppliers do.</summary>
/// <remarks>Beta-binomial (<see cref="Shrinkage.Rate"/>): few deliveries say little of one supplier alone. The limits are common practice, no source.</remarks>
/// <param name="OnTime">The part of its deliveries to reckon with as on time.</param>
/// <param name="Complete">The part to reckon with as complete.</param>
public sealed record SupplierStanding(Standing Standing, double OnTime, double Complete, int Deliveries)
{
    /// <summary>Deliveries of the common kind that its own are judged with.</summary>
    private const double Weight = 5;

    private const int LeastDeliveries = 3;

    /// <summary>Fewer than this do not end a trade.</summary>
    private const int LeastToLeave = 8;

    private const double RelyAbove = 0.9;
    private const double WatchAbove = 0.8;
    private const double TalkAbove = 0.6;

    /// <param name="own">Its deliveries: how many, how many on time, how many complete.</param>
    /// <param name="all">The same of all suppliers, its own too.</param>
    public static SupplierStanding Of((int Deliveries, int OnTime, int Complete) own, (int Deliveries, int OnTime, int Complete) all)
    {
        double Part(int good, int ofAll) => Shrinkage.Rate(good, own.Deliveries, all.Deliveries == 0 ? RelyAbove : (double)ofAll / all.Deliveries, Weight);
        var (onTime, complete) = (Part(own.OnTime, all.OnTime), Part(own.Complete, all.Complete));
        var standing = Math.Min(onTime, complete) switch
        {
            _ when own.Deliveries < LeastDeliveries => Standing.New,
            >= RelyAbove => Standing.Rely,
            >= WatchAbove => Standing.Watch,
            >= TalkAbove => Standing.Talk,
            _ => own.Deliveries < LeastToLeave ? Standing.Talk : Standing.Leave,
        };
        return new(standing, onTime, complete, own.Deliveries);
    }
}

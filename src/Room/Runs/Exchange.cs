namespace Goodsheet.Room.Runs;

/// <summary>Two stretches of work that change places. One of them may be empty: then the other only moves.</summary>
/// <remarks>Within one lane the first stretch lies before the second, and they do not overlap. Insertion, swap and block
/// move are all of this form.</remarks>
public readonly record struct Exchange(int LaneA, int A, int LengthA, int LaneB, int B, int LengthB);

/// <summary>Work in an order, on one lane or several, as <see cref="OrderSearch{T}"/> improves it.</summary>
public interface IOrdering
{
    int Lanes { get; }

    double Cost { get; }

    int Count(int lane);

    /// <summary>What all would cost after the exchange; anything above the limit may be answered as infinity. Infinity also
    /// when a lane cannot take what it would get.</summary>
    double CostAfter(in Exchange exchange, double limit);

    /// <summary>How much more changing over between neighbours there is after the exchange, in whatever measure the order has.
    /// It is asked far more often than <see cref="CostAfter"/>, so it must be quick.</summary>
    double MoreChanging(in Exchange exchange);

    /// <summary>Makes the exchange.</summary>
    void Make(in Exchange exchange);

    /// <summary>Writes down the present order, to come back to.</summary>
    void Keep();

    /// <summary>Goes back to the order last kept.</summary>
    void GoBack();
}

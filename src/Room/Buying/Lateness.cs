namespace Goodsheet.Room.Buying;

/// <summary>How a supplier keeps its day: how often it is late, and by how many working days then.</summary>
/// <remarks>
/// A few deliveries say little of one supplier, so each is judged as if it had seen some more deliveries like those of all suppliers
/// (beta-binomial, <see cref="Shrinkage.Rate"/>); how late a late one is, is taken from all of them. Early counts as on the day.
/// </remarks>
public sealed record Lateness(double Chance, IReadOnlyList<int> LateDays)
{
    /// <summary>Deliveries of the common kind that a supplier's own are judged with; common practice, no source.</summary>
    private const double Weight = 5;

    public static Lateness Never { get; } = new(0, []);

    public double Mean => Chance * Moment(1);

    public double Deviation => Math.Sqrt(Math.Max(0, (Chance * Moment(2)) - (Mean * Mean)));

    /// <param name="own">Working days late of each of the supplier's deliveries.</param>
    /// <param name="all">Those of all suppliers, its own too.</param>
    public static Lateness Of(IReadOnlyCollection<int> own, IReadOnlyCollection<int> all)
    {
        var late = all.Where(d => d > 0).Order().ToList();
        return late.Count == 0 ? Never : new(Shrinkage.Rate(own.Count(d => d > 0), own.Count, (double)late.Count / all.Count, Weight), late);
    }

    private double Moment(int power) => LateDays.Count == 0 ? 0 : LateDays.Average(d => Math.Pow(d, power));
}

using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Says how far two instruments differ, from one chart that both have read.</summary>
public sealed class CompareInstruments
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var (first, second) = (await ChartReading.ReadAsync(request.First, cancel), await ChartReading.ReadAsync(request.Second, cancel));
        if (!first.Granted || !second.Granted)
        {
            return (first.Refusal ?? second.Refusal)!;
        }

        var (a, b) = (first.Value.Set!, second.Value.Set!);
        if (a.Condition != b.Condition)
        {
            return new NotAlike(a.Condition, b.Condition);
        }

        if (Repeatability.Between(a, b) is not { } between)
        {
            return new NothingShared();
        }

        var known = a.Averaged().ToDictionary(p => string.Join(' ', p.Device), p => p.Lab);
        var pairs = b.Averaged().Select(p => (Was: known.GetValueOrDefault(string.Join(' ', p.Device)), Is: p.Lab, Shared: known.ContainsKey(string.Join(' ', p.Device)))).Where(p => p.Shared).ToList();
        return new Done(
            between, pairs.Average(p => p.Is.L - p.Was.L), pairs.Average(p => p.Is.A - p.Was.A), pairs.Average(p => p.Is.B - p.Was.B), Repeatability.Within(a)?.Mean.Value);
    }
#pragma warning restore CA1822

    public sealed record Request(string First, string Second);

    /// <param name="Between">Over the patches that both read.</param>
    /// <param name="Lighter">How much lighter the second reads on average, L*.</param>
    /// <param name="Redder">The same in a*.</param>
    /// <param name="Yellower">The same in b*.</param>
    /// <param name="Noise">What the first repeats to inside the chart, where patches repeat.</param>
    public sealed record Done(ErrorSummary Between, double Lighter, double Redder, double Yellower, double? Noise);

    public sealed record NotAlike(MCondition First, MCondition Second) : Refusal($"One chart was read in {First} and the other in {Second}: that differs by itself.");

    public sealed record NothingShared() : Refusal("The two files have no patch in common. Let both instruments read the same chart.");
}

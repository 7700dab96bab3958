namespace Goodsheet.Colour.Icc;

/// <summary>A curve through evenly spaced 16-bit entries, straight between them (curveType, ICC.1 clause 10.6).</summary>
public sealed record SampledCurve : ToneCurve
{
    private const double Full = ushort.MaxValue;

    private readonly ushort[] entries;
    private readonly bool rises;

    /// <summary>A curve through <paramref name="entries"/>, the first at 0 and the last at 1.</summary>
    /// <param name="entries">2 to <see cref="IccLimits.CurveEntries"/> values, 65535 meaning 1. They are copied.</param>
    /// <exception cref="ArgumentException">There are fewer than two, or too many.</exception>
    public SampledCurve(ReadOnlySpan<ushort> entries)
    {
        if (entries.Length is < 2 or > IccLimits.CurveEntries)
        {
            throw new ArgumentException($"A curve has 2 to {IccLimits.CurveEntries} entries, not {entries.Length}.", nameof(entries));
        }

        this.entries = entries.ToArray();
        rises = true;
        for (var i = 1; i < entries.Length; i++)
        {
            rises &= entries[i] >= entries[i - 1];
        }
    }

    /// <summary>The entries, 65535 meaning 1.</summary>
    public ReadOnlySpan<ushort> Entries => entries;

    /// <inheritdoc/>
    public override bool IsIdentity => entries is [0, ushort.MaxValue];

    /// <summary>The curve of a function, sampled at <paramref name="count"/> even steps and rounded to 16 bits.</summary>
    /// <param name="count">2 to <see cref="IccLimits.CurveEntries"/> entries.</param>
    /// <param name="curve">A function of 0 to 1; its values are clipped to 0 to 1.</param>
    public static SampledCurve Of(int count, Func<double, double> curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        var entries = new ushort[count];
        for (var i = 0; i < count; i++)
        {
            entries[i] = Encoding16.Round(curve((double)i / (count - 1)));
        }

        return new(entries);
    }

    /// <inheritdoc/>
    public override double Evaluate(double x)
    {
        var position = (double.IsNaN(x) ? 0 : Math.Clamp(x, 0, 1)) * (entries.Length - 1);
        var below = Math.Min((int)position, entries.Length - 2);
        var fraction = position - below;
        return ((entries[below] * (1 - fraction)) + (entries[below + 1] * fraction)) / Full;
    }

    /// <inheritdoc/>
    public override double Invert(double y)
    {
        var target = (double.IsNaN(y) ? 0 : Math.Clamp(y, 0, 1)) * Full;
        var last = entries.Length - 1;
        if (rises)
        {
            return InvertRising(target) / last;
        }

        for (var i = last - 1; i >= 0; i--)
        {
            var (from, to) = (entries[i], entries[i + 1]);
            if (target >= Math.Min(from, to) && target <= Math.Max(from, to))
            {
                var along = to == from ? (entries[last] >= entries[0] ? 1 : 0) : (target - from) / (to - from);
                return (i + along) / last;
            }
        }

        // Outside the range of the curve: the end whose value is nearer.
        return Math.Abs(target - entries[0]) < Math.Abs(target - entries[last]) ? 0 : 1;
    }

    private double InvertRising(double target)
    {
        // The last entry that is not above the target, by halving.
        var (low, high) = (-1, entries.Length - 1);
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            (low, high) = entries[middle] <= target ? (middle, high) : (low, middle - 1);
        }

        return low < 0 ? 0
            : low == entries.Length - 1 ? low
            : low + ((target - entries[low]) / (entries[low + 1] - entries[low]));
    }

    /// <summary>Whether both curves have the same entries.</summary>
    public bool Equals(SampledCurve? other) => other is not null && entries.AsSpan().SequenceEqual(other.entries);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(entries.Length, entries[entries.Length / 2]);
}

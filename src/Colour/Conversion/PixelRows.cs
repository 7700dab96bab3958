using System.Collections.Concurrent;

namespace Goodsheet.Colour.Conversion;

/// <summary>Converts rows of 16-bit pixels as the profiles say, step by step.</summary>
/// <remarks>Tables and curves of 16 bits are read in 16 bits, so that pixels come out as from the reference engine: see
/// docs/decisions/0081. What is nearer to exact arithmetic is <see cref="ColourTransform"/>.</remarks>
public sealed class PixelRows
{
    private readonly IReadOnlyList<PixelStep> steps;
    private readonly ConcurrentBag<PixelPlanes> spare = [];

    /// <summary>Rows through a transform between two devices.</summary>
    public PixelRows(ColourTransform transform)
    {
        ArgumentNullException.ThrowIfNull(transform);
        (Inputs, Outputs, steps) = (transform.Inputs, transform.Outputs, transform.PixelSteps());
    }

    /// <summary>Channels in.</summary>
    public int Inputs { get; }

    /// <summary>Channels out.</summary>
    public int Outputs { get; }

    /// <summary>Converts pixels on the calling thread; several may at once.</summary>
    /// <param name="source">Pixels of <see cref="Inputs"/> channels, 65535 meaning 1.</param>
    /// <param name="destination">Room for as many of <see cref="Outputs"/> channels.</param>
    /// <exception cref="ArgumentException">The two do not hold as many pixels.</exception>
    public void Convert(ReadOnlySpan<ushort> source, Span<ushort> destination)
    {
        var pixels = source.Length / Inputs;
        if (source.Length != pixels * Inputs || destination.Length != pixels * Outputs)
        {
            throw new ArgumentException("Source and destination do not hold as many pixels.", nameof(destination));
        }

        var planes = spare.TryTake(out var used) ? used : new();
        for (var first = 0; first < pixels; first += PixelPlanes.Most)
        {
            var count = Math.Min(PixelPlanes.Most, pixels - first);
            var these = source.Slice(first * Inputs, count * Inputs);
            if (Inputs == 3 && steps[0] is ValueTableStep values)
            {
                values.Take(these, planes);
            }
            else
            {
                planes.Take(these, Inputs);
                steps[0].Apply(planes);
            }

            for (var i = 1; i < steps.Count; i++)
            {
                steps[i].Apply(planes);
            }

            planes.Give(destination.Slice(first * Outputs, count * Outputs), Outputs);
        }

        spare.Add(planes);
    }
}

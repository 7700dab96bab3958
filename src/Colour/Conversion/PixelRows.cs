namespace Goodsheet.Colour.Conversion;

/// <summary>Converts rows of 16-bit pixels through a transform, stage by stage as the profiles say, on all cores.</summary>
public sealed class PixelRows(ColourTransform transform)
{
    private const int PixelsTogether = 4_096;
    private const double Full = ushort.MaxValue;

    /// <summary>Channels in.</summary>
    public int Inputs => transform.Inputs;

    /// <summary>Channels out.</summary>
    public int Outputs => transform.Outputs;

    /// <summary>Converts pixels; within one code of exact arithmetic.</summary>
    /// <param name="source">Pixels of <see cref="Inputs"/> channels, 65535 meaning 1.</param>
    /// <param name="destination">Room for as many of <see cref="Outputs"/> channels.</param>
    /// <exception cref="ArgumentException">The two do not hold as many pixels.</exception>
    public void Convert(ReadOnlyMemory<ushort> source, Memory<ushort> destination)
    {
        var pixels = source.Length / Inputs;
        if (source.Length != pixels * Inputs || destination.Length != pixels * Outputs)
        {
            throw new ArgumentException("Source and destination do not hold as many pixels.", nameof(destination));
        }

        Parallel.For(0, (pixels + PixelsTogether - 1) / PixelsTogether, part =>
        {
            var first = part * PixelsTogether;
            var count = Math.Min(PixelsTogether, pixels - first);
            ConvertPart(
                source.Span.Slice(first * Inputs, count * Inputs), destination.Span.Slice(first * Outputs, count * Outputs));
        });
    }

    private void ConvertPart(ReadOnlySpan<ushort> source, Span<ushort> destination)
    {
        var (n, m) = (Inputs, Outputs);
        Span<double> from = stackalloc double[4];
        Span<double> to = stackalloc double[4];
        from = from[..n];
        to = to[..m];
        for (var at = 0; at * n < source.Length; at++)
        {
            var pixel = source.Slice(at * n, n);
            var result = destination.Slice(at * m, m);
            // Flat areas and borders repeat the pixel before.
            if (at > 0 && pixel.SequenceEqual(source.Slice((at - 1) * n, n)))
            {
                destination.Slice((at - 1) * m, m).CopyTo(result);
                continue;
            }

            for (var i = 0; i < n; i++)
            {
                from[i] = pixel[i] / Full;
            }

            transform.Apply(from, to);
            for (var i = 0; i < m; i++)
            {
                result[i] = (ushort)((to[i] * Full) + 0.5);
            }
        }
    }
}

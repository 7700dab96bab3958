using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Goodsheet.Imaging;

/// <summary>The last few rows of a picture as floats, four to a pixel so that a pixel is one vector.</summary>
internal sealed class RowRing
{
    /// <summary>Floats a pixel takes.</summary>
    public const int Stride = 4;

    private const int Chunk = 2_048; // floats mixed at a time: they stay near the core

    private readonly float[][] rows;

    public RowRing(int width, int capacity)
    {
        rows = new float[capacity][];
        for (var i = 0; i < capacity; i++)
        {
            rows[i] = new float[width * Stride];
        }
    }

    /// <summary>How many rows it keeps.</summary>
    public int Capacity => rows.Length;

    /// <summary>A row by its number in the picture.</summary>
    public Span<float> this[int y] => rows[y % rows.Length];

    /// <summary>Mixes rows into one.</summary>
    public void Mix(int first, ReadOnlySpan<float> weights, Span<float> result)
    {
        for (var at = 0; at < result.Length; at += Chunk)
        {
            var part = result.Slice(at, Math.Min(Chunk, result.Length - at));
            part.Clear();
            for (var k = 0; k < weights.Length; k++)
            {
                Add(this[first + k].Slice(at, part.Length), weights[k], part);
            }
        }
    }

    /// <summary>Mixes the pixels of one row into another.</summary>
    public static void Mix(ReadOnlySpan<float> row, Taps taps, Span<float> result)
    {
        ref var from = ref MemoryMarshal.GetReference(row);
        ref var to = ref MemoryMarshal.GetReference(result);
        for (var x = 0; x < taps.Count; x++)
        {
            var weights = taps.Weights(x);
            var at = (nuint)(taps.First(x) * Stride);
            var sum = Vector128<float>.Zero;
            for (var k = 0; k < weights.Length; k++)
            {
                sum += Vector128.LoadUnsafe(ref from, at + ((nuint)k * Stride)) * Vector128.Create(weights[k]);
            }

            sum.StoreUnsafe(ref to, (nuint)(x * Stride));
        }
    }

    private static void Add(ReadOnlySpan<float> row, float weight, Span<float> sum)
    {
        var from = MemoryMarshal.Cast<float, Vector<float>>(row);
        var to = MemoryMarshal.Cast<float, Vector<float>>(sum);
        var by = new Vector<float>(weight);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] += from[i] * by;
        }

        for (var i = to.Length * Vector<float>.Count; i < sum.Length; i++)
        {
            sum[i] += row[i] * weight;
        }
    }
}

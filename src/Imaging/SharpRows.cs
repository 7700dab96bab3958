using System.Buffers;

namespace Goodsheet.Imaging;

/// <summary>The rows of a picture as they go to the printer's colours: in their size, with the edges lifted for ink on paper.</summary>
/// <remarks>Each pixel goes away from its surroundings, a bell whose width on paper is given in mm, by a share of the
/// difference: the usual way to make up for what ink and paper soften.</remarks>
internal sealed class SharpRows
{
    private const double LeastSigma = 0.3; // pixels: a narrower bell is the pixel itself

    private readonly SizedRows sized;
    private readonly float amount;
    private readonly Taps? across;
    private readonly Taps? down;
    private readonly RowRing ring;
    private int read;
    private int next;

    public SharpRows(SizedRows sized, int height, PrintRecipe recipe)
    {
        (this.sized, amount) = (sized, (float)recipe.Sharpening);
        if (Sharpens(recipe))
        {
            across = Taps.Bell(sized.Width, Sigma(recipe));
            down = Taps.Bell(height, Sigma(recipe));
        }

        ring = new(sized.Width, SizedRows.RowsTogether + (down is null ? 0 : down.End(0) * 2));
    }

    /// <summary>Whether a recipe asks for sharpening that the printer's pixels can show.</summary>
    public static bool Sharpens(PrintRecipe recipe) => recipe.HaloMm > 0 && recipe.Sharpening > 0 && Sigma(recipe) >= LeastSigma;

    // In pixels; the halo is seen about two sigma to either side.
    private static double Sigma(PrintRecipe recipe) => recipe.HaloMm / 25.4 * recipe.Ppi / 4;

    /// <summary>The next rows, the channels of a pixel side by side, rounded to 16 bits.</summary>
    /// <param name="count">At most <see cref="SizedRows.RowsTogether"/>, within the picture.</param>
    /// <param name="codes">Filled with them.</param>
    public void Read(int count, ushort[] codes)
    {
        var end = down is null ? next + count : down.End(next + count - 1);
        sized.Read(end - read, ring);
        read = end;
        var (from, length) = (next, sized.Width * sized.Channels);
        Parallel.For(0, count, row =>
        {
            var into = codes.AsSpan(row * length, length);
            if (down is null)
            {
                Round(ring[from + row], into);
                return;
            }

            var size = sized.Width * RowRing.Stride;
            var (half, soft) = (ArrayPool<float>.Shared.Rent(size), ArrayPool<float>.Shared.Rent(size));
            ring.Mix(down.First(from + row), down.Weights(from + row), half.AsSpan(0, size));
            RowRing.Mix(half, across!, soft);
            Lift(ring[from + row], soft);
            Round(soft, into);
            ArrayPool<float>.Shared.Return(half);
            ArrayPool<float>.Shared.Return(soft);
        });
        next += count;
    }

    private void Lift(ReadOnlySpan<float> row, Span<float> soft)
    {
        for (var i = 0; i < row.Length; i++)
        {
            soft[i] = row[i] + (amount * (row[i] - soft[i]));
        }
    }

    private void Round(ReadOnlySpan<float> row, Span<ushort> into)
    {
        var channels = sized.Channels;
        for (int i = 0, at = 0; i < into.Length; i += channels, at += RowRing.Stride)
        {
            for (var k = 0; k < channels; k++)
            {
                into[i + k] = (ushort)(Math.Clamp(row[at + k], 0, ushort.MaxValue) + 0.5f);
            }
        }
    }
}

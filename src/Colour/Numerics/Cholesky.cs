using System.Numerics;

namespace Goodsheet.Colour.Numerics;

/// <summary>The lower triangle L with L Lᵀ = A, for a symmetric positive definite A, in place.</summary>
/// <remarks>
/// Right-looking, in blocks of <see cref="Block"/> columns: nearly all work is dot products of short rows, three by
/// three, which keeps nine sums in registers. The order of additions does not hang on the number of threads, so the
/// result is the same on every run of one machine. See docs/decisions/0020.
/// </remarks>
internal sealed class Cholesky
{
    private const int Block = 128;

    private readonly double[] l;
    private readonly int n;
    private readonly int stride;

    private Cholesky(double[] l, int n, int stride) => (this.l, this.n, this.stride) = (l, n, stride);

    /// <summary>Factors a matrix in place.</summary>
    /// <param name="a">By rows, at least the lower triangle filled; overwritten.</param>
    /// <param name="n">How many rows.</param>
    /// <param name="stride">Distance between rows: <paramref name="n"/> or more.</param>
    /// <param name="progress">Told how much is done, 0 to 1.</param>
    /// <param name="stop">Stops it.</param>
    /// <exception cref="ArgumentException">The matrix is not positive definite.</exception>
    public static Cholesky Factor(double[] a, int n, int stride, IProgress<double>? progress = null, CancellationToken stop = default)
    {
        var c = new Cholesky(a, n, stride);
        for (var k = 0; k < n; k += Block)
        {
            stop.ThrowIfCancellationRequested();
            var end = Math.Min(n, k + Block);
            c.FactorDiagonal(k, end);
            InParallel(end, n, 8, (from, to) => c.SolvePanel(k, end, from, to));
            InParallel(end, n, 24, (from, to) => c.UpdateRows(k, end, from, to));
            progress?.Report(1 - Math.Pow(1 - ((double)end / n), 3));
        }

        return c;
    }

    /// <summary>Solves A x = b for several right sides, each a row of n values, in place.</summary>
    public void Solve(double[][] sides)
    {
        Forward(sides, 0);
        Backward(sides);
    }

    /// <summary>Solves Lᵀ x = b in place: the second half of <see cref="Solve"/>.</summary>
    public void Backward(double[][] sides)
    {
        for (var i = n - 1; i >= 0; i--)
        {
            var row = l.AsSpan(i * stride, i);
            foreach (var x in sides)
            {
                x[i] /= l[(i * stride) + i];
                Simd.AddScaled(x.AsSpan(0, i), -x[i], row);
            }
        }
    }

    /// <summary>Solves L x = b in place, for right sides whose first <paramref name="zeros"/> values are 0.</summary>
    public void Forward(double[][] sides, int zeros)
    {
        for (var i = zeros; i < n; i++)
        {
            var row = l.AsSpan((i * stride) + zeros, i - zeros);
            foreach (var x in sides)
            {
                x[i] = (x[i] - Simd.Dot(row, x.AsSpan(zeros))) / l[(i * stride) + i];
            }
        }
    }

    /// <summary>The diagonal of the inverse of A.</summary>
    public double[] InverseDiagonal(CancellationToken stop)
    {
        const int Together = 16;
        var diagonal = new double[n];
        Parallel.For(0, (n + Together - 1) / Together, new ParallelOptions { CancellationToken = stop }, g =>
        {
            var first = g * Together;
            var columns = Enumerable.Range(first, Math.Min(Together, n - first)).Select(i =>
            {
                var unit = new double[n];
                unit[i] = 1;
                return unit;
            }).ToArray();
            Forward(columns, first);
            for (var i = 0; i < columns.Length; i++)
            {
                diagonal[first + i] = Simd.Dot(columns[i], columns[i]);
            }
        });
        return diagonal;
    }

    private static void InParallel(int from, int to, int strip, Action<int, int> rows) =>
        Parallel.For(0, (to - from + strip - 1) / strip, s => rows(from + (s * strip), Math.Min(to, from + ((s + 1) * strip))));

    private void FactorDiagonal(int k, int end)
    {
        for (var i = k; i < end; i++)
        {
            SolveRow(i, k, i);
            var row = l.AsSpan((i * stride) + k, i - k);
            var pivot = l[(i * stride) + i] - Simd.Dot(row, row);
            if (!(pivot > 0))
            {
                throw new ArgumentException($"The matrix is not positive definite at row {i}.");
            }

            l[(i * stride) + i] = Math.Sqrt(pivot);
        }
    }

    private void SolvePanel(int k, int end, int from, int to)
    {
        for (var i = from; i < to; i++)
        {
            SolveRow(i, k, end);
        }
    }

    // Columns k up to end of row i, by those of the rows above.
    private void SolveRow(int i, int k, int end)
    {
        var row = l.AsSpan((i * stride) + k);
        for (var j = k; j < end; j++)
        {
            var above = l.AsSpan((j * stride) + k, j - k);
            row[j - k] = (row[j - k] - Simd.Dot(above, row)) / l[(j * stride) + j];
        }
    }

    private void UpdateRows(int k, int end, int from, int to)
    {
        var width = end - k;
        for (var j = k + width; j < to; j += 3)
        {
            for (var i = Math.Max(from, j - ((j - from) % 3)); i < to; i += 3)
            {
                if (i + 3 <= to && j + 3 <= n && width % Simd.Lanes == 0)
                {
                    UpdateNine(i, j, k, width);
                }
                else
                {
                    UpdateEdge(i, Math.Min(i + 3, to), j, k, width);
                }
            }
        }
    }

    private void UpdateEdge(int from, int to, int j, int k, int width)
    {
        for (var i = from; i < to; i++)
        {
            for (var c = j; c < Math.Min(j + 3, i + 1); c++)
            {
                l[(i * stride) + c] -= Simd.Dot(l.AsSpan((i * stride) + k, width), l.AsSpan((c * stride) + k));
            }
        }
    }

    // May write a little above the diagonal, where nothing is read.
    private void UpdateNine(int i, int j, int k, int width)
    {
        var a0 = Simd.Vectors(l.AsSpan((i * stride) + k, width));
        var a1 = Simd.Vectors(l.AsSpan(((i + 1) * stride) + k, width))[..a0.Length];
        var a2 = Simd.Vectors(l.AsSpan(((i + 2) * stride) + k, width))[..a0.Length];
        var b0 = Simd.Vectors(l.AsSpan((j * stride) + k, width))[..a0.Length];
        var b1 = Simd.Vectors(l.AsSpan(((j + 1) * stride) + k, width))[..a0.Length];
        var b2 = Simd.Vectors(l.AsSpan(((j + 2) * stride) + k, width))[..a0.Length];
        Vector<double> s00 = default, s01 = default, s02 = default, s10 = default, s11 = default, s12 = default;
        Vector<double> s20 = default, s21 = default, s22 = default;
        for (var v = 0; v < a0.Length; v++)
        {
            var (x0, x1, x2) = (b0[v], b1[v], b2[v]);
            var y = a0[v];
            s00 = Vector.FusedMultiplyAdd(y, x0, s00);
            s01 = Vector.FusedMultiplyAdd(y, x1, s01);
            s02 = Vector.FusedMultiplyAdd(y, x2, s02);
            y = a1[v];
            s10 = Vector.FusedMultiplyAdd(y, x0, s10);
            s11 = Vector.FusedMultiplyAdd(y, x1, s11);
            s12 = Vector.FusedMultiplyAdd(y, x2, s12);
            y = a2[v];
            s20 = Vector.FusedMultiplyAdd(y, x0, s20);
            s21 = Vector.FusedMultiplyAdd(y, x1, s21);
            s22 = Vector.FusedMultiplyAdd(y, x2, s22);
        }

        Subtract(i, j, s00, s01, s02);
        Subtract(i + 1, j, s10, s11, s12);
        Subtract(i + 2, j, s20, s21, s22);
    }

    private void Subtract(int i, int j, Vector<double> s0, Vector<double> s1, Vector<double> s2)
    {
        var row = l.AsSpan((i * stride) + j, 3);
        row[0] -= Vector.Sum(s0);
        row[1] -= Vector.Sum(s1);
        row[2] -= Vector.Sum(s2);
    }
}

namespace Goodsheet.Colour.Icc;

/// <summary>A 3 x 3 matrix with an offset, as profiles hold them.</summary>
/// <remarks>Row by row, then the offset: the order of lutAToBType.</remarks>
public sealed record Matrix3
{
    /// <summary>The matrix that changes nothing.</summary>
    public static readonly Matrix3 Identity = new(1, 0, 0, 0, 1, 0, 0, 0, 1);

    private readonly double[] rows;
    private readonly double[] offset;

    /// <summary>A matrix of nine or twelve numbers.</summary>
    /// <param name="numbers">Nine numbers row by row, and three of offset or none.</param>
    /// <exception cref="ArgumentException">Their number is wrong, or one is not finite.</exception>
    public Matrix3(params ReadOnlySpan<double> numbers)
    {
        if (numbers.Length is not (9 or 12))
        {
            throw new ArgumentException($"A matrix has 9 or 12 numbers, not {numbers.Length}.", nameof(numbers));
        }

        foreach (var number in numbers)
        {
            if (!double.IsFinite(number))
            {
                throw new ArgumentException("A number of a matrix is none.", nameof(numbers));
            }
        }

        rows = numbers[..9].ToArray();
        offset = numbers.Length == 12 ? numbers[9..].ToArray() : new double[3];
    }

    /// <summary>Whether it changes nothing at all.</summary>
    public bool IsIdentity => Equals(Identity);

    /// <summary>One number of the matrix.</summary>
    public double this[int row, int column] => rows[(3 * row) + column];

    /// <summary>Takes one colour through.</summary>
    /// <param name="from">Three numbers.</param>
    /// <param name="to">Filled with three; other memory than <paramref name="from"/>.</param>
    public void Apply(ReadOnlySpan<double> from, Span<double> to)
    {
        for (var i = 0; i < 3; i++)
        {
            to[i] = (rows[3 * i] * from[0]) + (rows[(3 * i) + 1] * from[1]) + (rows[(3 * i) + 2] * from[2]) + offset[i];
        }
    }

    /// <summary>The matrix that goes back, or null when there is none.</summary>
    public Matrix3? Inverse()
    {
        var m = rows;
        var determinant = (m[0] * ((m[4] * m[8]) - (m[5] * m[7])))
            - (m[1] * ((m[3] * m[8]) - (m[5] * m[6])))
            + (m[2] * ((m[3] * m[7]) - (m[4] * m[6])));
        const double singular = 1e-9; // primaries within a line: no space of colours
        if (!(Math.Abs(determinant) > singular))
        {
            return null;
        }

        Span<double> back =
        [
            (m[4] * m[8]) - (m[5] * m[7]), (m[2] * m[7]) - (m[1] * m[8]), (m[1] * m[5]) - (m[2] * m[4]),
            (m[5] * m[6]) - (m[3] * m[8]), (m[0] * m[8]) - (m[2] * m[6]), (m[2] * m[3]) - (m[0] * m[5]),
            (m[3] * m[7]) - (m[4] * m[6]), (m[1] * m[6]) - (m[0] * m[7]), (m[0] * m[4]) - (m[1] * m[3]),
            0, 0, 0,
        ];
        for (var i = 0; i < 9; i++)
        {
            back[i] /= determinant;
        }

        Span<double> shift = stackalloc double[3];
        new Matrix3(back[..9]).Apply(offset, shift);
        (back[9], back[10], back[11]) = (-shift[0], -shift[1], -shift[2]);
        return new(back);
    }

    /// <summary>Whether all twelve numbers are the same.</summary>
    public bool Equals(Matrix3? other) =>
        other is not null && rows.AsSpan().SequenceEqual(other.rows) && offset.AsSpan().SequenceEqual(other.offset);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(rows[0], rows[4], rows[8], offset[0]);
}

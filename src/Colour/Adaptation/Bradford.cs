using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Adaptation;

/// <summary>The linear Bradford transform from one white to another (ICC.1:2022, Annex E).</summary>
/// <remarks>For colours of things seen under both lights by an adapted eye. It guesses; a spectrum knows.</remarks>
public sealed class Bradford
{
    private static readonly double[,] Cone =
    {
        { 0.8951, 0.2664, -0.1614 },
        { -0.7502, 1.7135, 0.0367 },
        { 0.0389, -0.0685, 1.0296 },
    };

    private readonly double[,] matrix;

    /// <summary>The transform from one white to the other.</summary>
    /// <param name="from">The white that colours are given under.</param>
    /// <param name="to">The white that they are wanted under, on the same scale.</param>
    public Bradford(Xyz from, Xyz to)
    {
        var (a, b) = (Times(Cone, from), Times(Cone, to));
        var scaled = new double[3, 3];
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                scaled[i, j] = b[i] / a[i] * Cone[i, j];
            }
        }

        matrix = Product(Inverse(Cone), scaled);
    }

    /// <summary>The 3 x 3 matrix by rows, as the ICC `chad` tag holds it.</summary>
    public double[] ToArray() => [.. matrix.Cast<double>()];

    /// <summary>A colour under the other white.</summary>
    public Xyz Apply(Xyz colour) => Times(matrix, colour) is [var x, var y, var z] ? new(x, y, z) : default;

    private static double[] Times(double[,] m, Xyz v) =>
        [.. Enumerable.Range(0, 3).Select(i => (m[i, 0] * v.X) + (m[i, 1] * v.Y) + (m[i, 2] * v.Z))];

    private static double[,] Product(double[,] a, double[,] b)
    {
        var p = new double[3, 3];
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                p[i, j] = (a[i, 0] * b[0, j]) + (a[i, 1] * b[1, j]) + (a[i, 2] * b[2, j]);
            }
        }

        return p;
    }

    // By cofactors: the published rounded inverse would not give an exact round trip.
    private static double[,] Inverse(double[,] m)
    {
        var inverse = new double[3, 3];
        double Cofactor(int i, int j)
        {
            var (r, s, c, d) = ((i + 1) % 3, (i + 2) % 3, (j + 1) % 3, (j + 2) % 3);
            return (m[r, c] * m[s, d]) - (m[r, d] * m[s, c]);
        }

        var determinant = (m[0, 0] * Cofactor(0, 0)) + (m[0, 1] * Cofactor(0, 1)) + (m[0, 2] * Cofactor(0, 2));
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                inverse[j, i] = Cofactor(i, j) / determinant;
            }
        }

        return inverse;
    }
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Gamut;

/// <summary>The solid of all colours a printing condition reaches, by the triangles of its device cube's faces.</summary>
/// <remarks>For three channels. Points stand closer towards both ends of an edge, where printers change fastest: 33 along an
/// edge are within 0.1 % of the limit, and <see cref="VolumeOf"/> within 0.02 % (computed on real charts, see docs/decisions/0270).</remarks>
public sealed class GamutSolid
{
    /// <summary>Points along an edge that are taken where nobody says otherwise.</summary>
    public const int UsualPoints = 33;

    private readonly (Lab A, Lab B, Lab C)[] triangles;

    private GamutSolid((Lab A, Lab B, Lab C)[] triangles) => this.triangles = triangles;

    /// <summary>The triangles, corners turning the same way round all over the surface.</summary>
    public IReadOnlyList<(Lab A, Lab B, Lab C)> Triangles => triangles;

    /// <summary>In cubic units of L*a*b*.</summary>
    public double Volume => Math.Abs(triangles.Sum(t => Signed(t.A, t.B, t.C)));

    /// <summary>The surface's area, in square units of L*a*b*.</summary>
    public double Area => triangles.Sum(t => AreaOf(t.A, t.B, t.C));

    /// <summary>The solid of a model.</summary>
    /// <param name="model">Of three channels.</param>
    /// <param name="points">Points along an edge of the cube, 2 to 129.</param>
    /// <exception cref="ArgumentException">The model has not three channels, or the points are out of range.</exception>
    public static GamutSolid Of(IPrinterModel model, int points = UsualPoints)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points, 129);
        if (model.Channels != 3)
        {
            throw new ArgumentException("A gamut's surface is taken for three channels.", nameof(model));
        }

        var triangles = new List<(Lab, Lab, Lab)>(6 * 2 * points * points);
        for (var axis = 0; axis < 3; axis++)
        {
            foreach (var end in (double[])[0, 1])
            {
                AddFace(model, axis, end, points, triangles);
            }
        }

        return new([.. triangles]);
    }

    /// <summary>The volume of a model's solid, carried on to ever smaller triangles, in cubic units of L*a*b*.</summary>
    /// <param name="model">Of three channels.</param>
    /// <exception cref="ArgumentException">The model has not three channels.</exception>
    public static double VolumeOf(IPrinterModel model)
    {
        var (fine, coarse) = (Of(model).Volume, Of(model, (UsualPoints + 1) / 2).Volume);
        return fine + ((fine - coarse) / 3); // the error goes with the square of the mesh
    }

    /// <summary>The outline where a plane of one lightness cuts the solid, as pieces of line in a* and b*.</summary>
    public IReadOnlyList<((double A, double B) From, (double A, double B) To)> Slice(double lightness)
    {
        var pieces = new List<((double, double), (double, double))>();
        foreach (var (a, b, c) in triangles)
        {
            var cuts = new List<(double, double)>(2);
            foreach (var (from, to) in ((Lab, Lab)[])[(a, b), (b, c), (c, a)])
            {
                if ((from.L < lightness) != (to.L < lightness))
                {
                    var t = (lightness - from.L) / (to.L - from.L);
                    cuts.Add((from.A + (t * (to.A - from.A)), from.B + (t * (to.B - from.B))));
                }
            }

            if (cuts.Count == 2)
            {
                pieces.Add((cuts[0], cuts[1]));
            }
        }

        return pieces;
    }

    private static void AddFace(IPrinterModel model, int axis, double end, int points, List<(Lab, Lab, Lab)> triangles)
    {
        var (u, v) = ((axis + 1) % 3, (axis + 2) % 3);
        var device = new double[points * points * 3];
        for (var i = 0; i < points; i++)
        {
            for (var j = 0; j < points; j++)
            {
                var at = 3 * ((i * points) + j);
                device[at + axis] = end;
                device[at + u] = Place(i, points);
                device[at + v] = Place(j, points);
            }
        }

        var lab = new double[device.Length];
        model.Predict(device, lab);
        for (var i = 0; i < points - 1; i++)
        {
            for (var j = 0; j < points - 1; j++)
            {
                var (a, b, c, d) = (At(i, j), At(i + 1, j), At(i + 1, j + 1), At(i, j + 1));
                // The far face is seen from its other side.
                triangles.Add(end > 0 ? (a, b, c) : (a, c, b));
                triangles.Add(end > 0 ? (a, c, d) : (a, d, c));
            }
        }

        Lab At(int i, int j)
        {
            var at = 3 * ((i * points) + j);
            return new(lab[at], lab[at + 1], lab[at + 2]);
        }
    }

    private static double Place(int i, int points) => (1 - Math.Cos(Math.PI * i / (points - 1))) / 2;

    private static double AreaOf(Lab a, Lab b, Lab c)
    {
        var (u, v) = ((L: b.L - a.L, A: b.A - a.A, B: b.B - a.B), (L: c.L - a.L, A: c.A - a.A, B: c.B - a.B));
        var (x, y, z) = ((u.A * v.B) - (u.B * v.A), (u.B * v.L) - (u.L * v.B), (u.L * v.A) - (u.A * v.L));
        return Math.Sqrt((x * x) + (y * y) + (z * z)) / 2;
    }

    private static double Signed(Lab a, Lab b, Lab c) =>
        ((a.L * ((b.A * c.B) - (b.B * c.A))) + (a.A * ((b.B * c.L) - (b.L * c.B))) + (a.B * ((b.L * c.A) - (b.A * c.L)))) / 6;
}

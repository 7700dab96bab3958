using System.Runtime.Intrinsics;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Profiles;

/// <summary>The nearest of many colours, four at a time.</summary>
internal static class NearestColour
{
    /// <summary>Where dL² + (da² + db²)/2 is least; the first of several.</summary>
    /// <param name="planes">All L*, all a*, all b*: at least one colour.</param>
    /// <param name="wanted">The colour to be near to.</param>
    public static int Of(double[][] planes, Lab wanted)
    {
        var (ls, bs) = (planes[0], planes[2]);
        var greens = planes[1];
        var (l, a, b) = (Vector256.Create(wanted.L), Vector256.Create(wanted.A), Vector256.Create(wanted.B));
        var (least, best) = (Vector256.Create(double.MaxValue), Vector256<long>.Zero);
        var (at, four) = (Vector256.Create(0L, 1, 2, 3), Vector256.Create(4L));
        var i = 0;
        for (; i <= ls.Length - 4; i += 4, at += four)
        {
            var dl = Vector256.LoadUnsafe(ref ls[0], (nuint)i) - l;
            var da = Vector256.LoadUnsafe(ref greens[0], (nuint)i) - a;
            var db = Vector256.LoadUnsafe(ref bs[0], (nuint)i) - b;
            var d = (dl * dl) + (((da * da) + (db * db)) * 0.5);
            var nearer = Vector256.LessThan(d, least);
            least = Vector256.ConditionalSelect(nearer, d, least);
            best = Vector256.ConditionalSelect(nearer.AsInt64(), at, best);
        }

        var (found, distance) = ((int)best[0], least[0]);
        for (var lane = 1; lane < 4; lane++)
        {
            if (least[lane] < distance || (least[lane] == distance && best[lane] < found))
            {
                (found, distance) = ((int)best[lane], least[lane]);
            }
        }

        for (; i < ls.Length; i++)
        {
            var (dl, da, db) = (ls[i] - wanted.L, greens[i] - wanted.A, bs[i] - wanted.B);
            var d = (dl * dl) + (((da * da) + (db * db)) / 2);
            if (d < distance)
            {
                (found, distance) = (i, d);
            }
        }

        return found;
    }
}

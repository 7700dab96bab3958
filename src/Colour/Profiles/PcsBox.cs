using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>The part of L*a*b* that a table spends its nodes on, with a* = b* = 0 on nodes and the paper at the top.</summary>
internal sealed class PcsBox
{
    private const double NearGrey = 0.02;
    private const double NearBlack = 0.8;

    private const int CurveEntries = (255 * 16) + 1; // a* = b* = 0, code 128/255, falls on an entry

    // Where the encoding of a* and b* ends.
    private const double Lowest = -128;
    private const double Highest = 127;

    private readonly (double Low, double High)[] sides;
    private readonly (double Low, double High)[] warped;

    // Nodes along a* and b* beyond each end of the box, far apart: clipped to the box, a vivid blue would turn violet.
    private readonly int outer;

    private PcsBox(double lowL, double reachA1, double reachA2, double reachB1, double reachB2, int points, int outer)
    {
        (Points, this.outer) = (points, outer);
        var inner = points - (2 * outer);
        sides = [(lowL, 100), ZeroOnNode(reachA1, reachA2, inner), ZeroOnNode(reachB1, reachB2, inner)];
        warped = [.. sides.Select((s, i) => (Warp(i, s.Low), Warp(i, s.High)))];
    }

    public int Points { get; }

    /// <summary>The box around everything a condition prints, and a margin; a few nodes for what lies farther out.</summary>
    public static PcsBox Around(DeviceLattice lattice, int points)
    {
        var (low, high) = (new double[] { 100, 0, 0 }, new double[] { 0, 0, 0 });
        for (var i = 0; i < lattice.Values.Length; i++)
        {
            low[i % 3] = Math.Min(low[i % 3], lattice.Values[i]);
            high[i % 3] = Math.Max(high[i % 3], lattice.Values[i]);
        }

        const double cells = 1.5;
        const int perOuter = 16; // nodes to one of them that lies outside
        var outer = points / perOuter;
        double Margin(int side) => cells * (high[side] - low[side]) / (points - 1 - (2 * outer));
        return new(
            Math.Max(0, low[0] - (cells * (100 - low[0]) / (points - 1))),
            low[1] - Margin(1), high[1] + Margin(1), low[2] - Margin(2), high[2] + Margin(2), points, outer);
    }

    /// <summary>The box for colours that are still to be drawn in: all that pictures hold.</summary>
    public static PcsBox Whole(int points) => new(0, -112, 112, -112, 112, points, 0);

    public ToneCurve[] Curves() =>
    [
        SampledCurve.Of(CurveEntries, x => Along(0, 100 * x)),
        SampledCurve.Of(CurveEntries, x => Along(1, (255 * x) - 128)),
        SampledCurve.Of(CurveEntries, x => Along(2, (255 * x) - 128)),
    ];

    public double Along(int side, double value)
    {
        var (low, high) = sides[side];
        var beyond = Beyond(side);
        var node = value < low && beyond > 0 ? beyond * (value - Lowest) / (low - Lowest)
            : value > high && beyond > 0 ? Points - 1 - (beyond * (Highest - value) / (Highest - high))
            : beyond + ((Warp(side, value) - warped[side].Low) / (warped[side].High - warped[side].Low) * (Points - 1 - (2 * beyond)));
        return Math.Clamp(node / (Points - 1), 0, 1);
    }

    /// <summary>The node along a* (1) or b* (2) where that is 0.</summary>
    public int Zero(int side) => Enumerable.Range(0, Points).MinBy(i => Math.Abs(At(side, i)));

    public bool Holds(Lab colour) =>
        colour.L >= sides[0].Low && colour.L <= sides[0].High
        && colour.A >= sides[1].Low && colour.A <= sides[1].High
        && colour.B >= sides[2].Low && colour.B <= sides[2].High;

    public double At(int side, int node)
    {
        var (low, high) = sides[side];
        var beyond = Beyond(side);
        var last = Points - 1;
        return node < beyond ? Lowest + (node * (low - Lowest) / beyond)
            : node > last - beyond ? Highest - ((last - node) * (Highest - high) / beyond)
            : Unwarp(side, warped[side].Low + ((node - beyond) * (warped[side].High - warped[side].Low) / (last - (2 * beyond))));
    }

    private int Beyond(int side) => side == 0 ? 0 : outer;

    // Nodes lie closer near the greys and a little closer near black. Differences in chroma are the less seen the more
    // chroma there is (S_C = 1 + 0.045 C of CIEDE2000); this goes nearly half as far.
    private double Warp(int side, double value) => side == 0
        ? Math.Pow(Math.Max(0, value - sides[0].Low) / (100 - sides[0].Low), NearBlack)
        : Math.CopySign(Math.Log(1 + (NearGrey * Math.Abs(value))), value);

    private double Unwarp(int side, double warped) => side == 0
        ? sides[0].Low + ((100 - sides[0].Low) * Math.Pow(Math.Max(0, warped), 1 / NearBlack))
        : Math.CopySign((Math.Exp(Math.Abs(warped)) - 1) / NearGrey, warped);

    // In the measure of Warp: 0 on a node, both ends inside the encoding.
    private (double, double) ZeroOnNode(double low, double high, int points)
    {
        var (from, to) = (Warp(1, low), Warp(1, high));
        var before = Math.Clamp((int)Math.Round(-from / (to - from) * (points - 1)), 1, points - 2);
        var step = Math.Max(-from / before, to / (points - 1 - before));
        step = Math.Min(step, Math.Min(-Warp(1, Lowest + 1) / before, Warp(1, Highest - 1) / (points - 1 - before)));
        return (Unwarp(1, -before * step), Unwarp(1, (points - 1 - before) * step));
    }
}

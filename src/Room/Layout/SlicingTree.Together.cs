using System.Numerics;

namespace Goodsheet.Room.Layout;

/// <content>Places that no node has alone, but some neighbours together: two or three of a row that leave room under them, or of a stack beside them.</content>
internal sealed partial class SlicingTree
{
    private const int MostNeighbours = 12; // so that rows of very many do not hold the search up
    private readonly int[] neighbours = new int[MostNeighbours];

    /// <summary>Puts an item under, or beside, two or three neighbours that have room for it together, where it leaves the least unusable.</summary>
    /// <param name="under">Only where it leaves less than this, of what <see cref="Find"/> found.</param>
    /// <param name="skip">As for <see cref="Find"/>.</param>
    /// <returns>False if there is no such place.</returns>
    public bool PutTogether(int item, int width, int height, bool mayTurn, int under, int skip, ref Chance chance)
    {
        MeasureStale();
        var best = new Group(None, None, None, None, false, under);
        ScanJoints(width, height, false, skip, ref best, ref chance);
        if (mayTurn && width != height)
        {
            ScanJoints(height, width, true, skip, ref best, ref chance);
        }

        if (best.Joint == None)
        {
            return false;
        }

        (nodes[item].W, nodes[item].H) = best.Turned ? (height, width) : (width, height);
        Gather(best, item);
        return true;
    }

    private void ScanJoints(int iw, int ih, bool turned, int skip, ref Group best, ref Chance chance)
    {
        unchecked
        {
            var (leastW, leastH) = (new Vector<int>(iw), new Vector<int>(ih));
            for (var lane = 0; lane < someW.Length && best.Waste > 0; lane += Lanes)
            {
                var fits = Vector.GreaterThanOrEqual((new Vector<int>(someW, lane) - leastW) | (new Vector<int>(someH, lane) - leastH), Vector<int>.Zero);
                for (var c = 0; fits != Vector<int>.Zero && c < Lanes; c++)
                {
                    if (fits[c] != 0)
                    {
                        ScanWithin(items + lane + c, iw, ih, turned, skip, ref best, ref chance);
                    }
                }
            }
        }
    }

    private void ScanWithin(int joint, int iw, int ih, bool turned, int skip, ref Group best, ref Chance chance)
    {
        unchecked
        {
            ref readonly var n = ref nodes[joint];
            var row = n.Kind == Row;

            // Along is the way the neighbours lie, across is where they leave room.
            var (along, across, slack, most) = row ? (iw, ih, n.MostW - n.W, n.MostH) : (ih, iw, n.MostH - n.H, n.MostW);
            var (many, sum, held) = (0, 0, 0);
            for (var c = n.First; c != None; c = nodes[c].Next, held++)
            {
                if (many < MostNeighbours && Across(c, row) + across <= most)
                {
                    neighbours[many++] = c;
                    sum += Along(c, row);
                }
            }

            // Where all have room the joint has it, too, and was passed over by chance.
            if (many == held || sum + slack < along)
            {
                return;
            }

            for (var a = 0; a < many; a++)
            {
                var (one, oneHigh) = (Along(neighbours[a], row), Across(neighbours[a], row));
                for (var b = a + 1; b < many; b++)
                {
                    var (two, twoHigh) = (one + Along(neighbours[b], row), Math.Max(oneHigh, Across(neighbours[b], row)));
                    Weigh(two, twoHigh, a, b, None, ref best, ref chance);
                    for (var c = b + 1; c < many; c++)
                    {
                        Weigh(two + Along(neighbours[c], row), Math.Max(twoHigh, Across(neighbours[c], row)), a, b, c, ref best, ref chance);
                    }
                }
            }

            void Weigh(int wide, int high, int a, int b, int c, ref Group best, ref Chance chance)
            {
                var waste = Misfit(most - high - across, wide + slack - along, wide - along);
                if (wide + slack >= along && waste < best.Waste && !(skip > 0 && chance.OneIn(skip)))
                {
                    best = new(joint, neighbours[a], neighbours[b], c == None ? None : neighbours[c], turned, waste);
                }
            }
        }
    }

    private int Along(int node, bool row) => row ? nodes[node].W : nodes[node].H;

    private int Across(int node, bool row) => row ? nodes[node].H : nodes[node].W;

    /// <summary>Makes neighbours a row of their own in a new stack with the item under them, or the same the other way round.</summary>
    private void Gather(in Group group, int item)
    {
        var way = nodes[group.Joint].Kind;
        stale[BinOf(group.Joint)] = true;
        var (inner, outer) = (free[--freeCount], free[--freeCount]);
        (nodes[inner].Kind, nodes[inner].First, nodes[inner].W, nodes[inner].H) = (way, None, 0, 0);
        (nodes[outer].Kind, nodes[outer].First, nodes[outer].W, nodes[outer].H) = (way == Row ? Stack : Row, None, 0, 0);
        foreach (var node in (ReadOnlySpan<int>)[group.A, group.B, group.C])
        {
            if (node != None)
            {
                Detach(node);
                Attach(inner, node);
            }
        }

        Attach(outer, inner);
        Attach(outer, item);
        Attach(group.Joint, outer);
        Resize(inner);
    }

    /// <summary>Neighbours in a joint that an item may join; C may be none.</summary>
    private readonly record struct Group(int Joint, int A, int B, int C, bool Turned, int Waste);
}

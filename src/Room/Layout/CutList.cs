using System.Numerics;

namespace Goodsheet.Room.Layout;

/// <summary>The cuts of one sheet in the order to make them, numbered from 1; as few as the layout's own cuts and the margins allow.</summary>
/// <remarks>
/// A margin is taken off the whole where that is one cut for all that lies along it. It stays on what is left over, which is only larger by it,
/// and is taken off later where fewer pieces need it. The near side of each cut is finished before its far side is taken up, so that one part
/// lies on the trimmer and the others wait in a row.
/// </remarks>
public static class CutList
{
    /// <summary>The part that is the whole sheet.</summary>
    public const int WholeSheet = 0;

    // The margins that a part still has, as bits.
    private const int Left = 1, Right = 2, Lead = 4, Tail = 8, AllMargins = 16;

    public static IReadOnlyList<NumberedCut> Of(Stock stock, CutSheet sheet) => Walk(stock, sheet).Cuts;

    /// <summary>What is left over of the sheet, as it leaves the knife: at least as large as what the layout left free there.</summary>
    public static IReadOnlyList<Area> Offcuts(Stock stock, CutSheet sheet) => Walk(stock, sheet).Offcuts;

    private static (List<NumberedCut> Cuts, List<Area> Offcuts) Walk(Stock stock, CutSheet sheet)
    {
        var (cuts, offcuts) = (new List<NumberedCut>(), new List<Area>());
        var fewest = Fewest(sheet.Tree);
        var m = stock.Margins;
        var parts = 0;
        var has = (m.Left.Micrometres > 0 ? Left : 0) | (m.Right.Micrometres > 0 ? Right : 0) | (m.Lead.Micrometres > 0 ? Lead : 0) | (m.Tail.Micrometres > 0 ? Tail : 0);
        var wait = new Stack<(CutTree Node, Part Part, int Has)>([(sheet.Tree, new(WholeSheet, new(0, 0, sheet.Width, sheet.Height)), has)]);
        while (wait.TryPop(out var next))
        {
            var (node, part, margins) = next;
            if (node is CutTree.Offcut)
            {
                if (part.Place is { Width: > 0, Height: > 0 })
                {
                    offcuts.Add(part.Place);
                }
            }
            else if (First(node, margins) is var margin and > 0)
            {
                wait.Push((node, Trim(part, margin), margins & ~margin));
            }
            else if (node is CutTree.Cut cut)
            {
                var along = cut.Direction is CutDirection.Along;
                var (nearEdge, farEdge) = along ? (Left, Right) : (Lead, Tail);
                var before = (margins & nearEdge) == 0 ? 0 : (along ? m.Left : m.Lead).Micrometres;
                var after = (margins & farEdge) == 0 ? 0 : (along ? m.Right : m.Tail).Micrometres;
                var room = (along ? part.Place.Width : part.Place.Height) - before - cut.At - after;
                var clear = Math.Min(stock.Gutter.Micrometres, room);

                // Nothing is cleared off what is left over: one cut parts it, on the side of the piece beside it.
                var (stop, knife) = cut.Far is CutTree.Offcut ? (before + cut.At, 0)
                    : cut.Near is CutTree.Offcut && clear < room ? (before + cut.At + clear, 0)
                    : (before + cut.At, clear);
                var (near, far) = Make(part, cut.Direction, stop, knife);
                wait.Push((cut.Far, far, margins & ~nearEdge));
                wait.Push((cut.Near, near, margins & ~farEdge));
            }
        }

        return (cuts, offcuts);

        // The margin to take off before anything else is done with the part; 0 for none.
        int First(CutTree node, int margins)
        {
            if (node is CutTree.Good)
            {
                return margins & -margins;
            }

            for (var margin = Left; margin <= Tail; margin <<= 1)
            {
                if ((margins & margin) != 0 && fewest[node][margins & ~margin] + 1 == fewest[node][margins])
                {
                    return margin;
                }
            }

            return 0;
        }

        Part Trim(Part part, int margin)
        {
            var (direction, side) = margin is Left or Right ? (CutDirection.Along, part.Place.Width) : (CutDirection.Across, part.Place.Height);
            var (near, far) = Make(part, direction, margin switch
            {
                Left => m.Left.Micrometres,
                Right => side - m.Right.Micrometres,
                Lead => m.Lead.Micrometres,
                _ => side - m.Tail.Micrometres,
            }, 0);
            return margin is Left or Lead ? far : near;
        }

        (Part Near, Part Far) Make(Part part, CutDirection direction, long stop, long knife)
        {
            var at = part.Place;
            var (near, far) = direction is CutDirection.Along
                ? (at with { Width = stop }, at with { X = at.X + stop + knife, Width = at.Width - stop - knife })
                : (at with { Height = stop }, at with { Y = at.Y + stop + knife, Height = at.Height - stop - knife });
            var made = (Near: new Part(++parts, near), Far: new Part(++parts, far));
            cuts.Add(new(cuts.Count + 1, part, direction, stop, knife, made.Near, made.Far));
            return made;
        }
    }

    /// <summary>For each part of the tree, and each set of margins that it may still have, the fewest cuts that give its pieces.</summary>
    private static Dictionary<CutTree, int[]> Fewest(CutTree tree)
    {
        var order = new List<CutTree>();
        var wait = new Stack<CutTree>([tree]);
        while (wait.TryPop(out var node))
        {
            order.Add(node);
            if (node is CutTree.Cut cut)
            {
                wait.Push(cut.Far);
                wait.Push(cut.Near);
            }
        }

        var fewest = new Dictionary<CutTree, int[]>(ReferenceEqualityComparer.Instance);
        foreach (var node in Enumerable.Reverse(order)) // from the leaves up
        {
            var of = new int[AllMargins];
            for (var margins = 0; margins < AllMargins && node is not CutTree.Offcut; margins++)
            {
                of[margins] = BitOperations.PopCount((uint)margins);
                if (node is CutTree.Cut cut)
                {
                    var (nearEdge, farEdge) = cut.Direction is CutDirection.Along ? (Left, Right) : (Lead, Tail);
                    of[margins] = 1 + fewest[cut.Near][margins & ~farEdge] + fewest[cut.Far][margins & ~nearEdge];
                    for (var margin = Left; margin <= Tail; margin <<= 1)
                    {
                        of[margins] = (margins & margin) != 0 ? Math.Min(of[margins], 1 + of[margins & ~margin]) : of[margins];
                    }
                }
            }

            fewest[node] = of;
        }

        return fewest;
    }
}

/// <summary>A part of a sheet while it is being cut: <see cref="CutList.WholeSheet"/>, or numbered as it came off.</summary>
public readonly record struct Part(int Number, Area Place);

/// <summary>One cut: set the stop, cut, and cut the clearance off the far part.</summary>
/// <param name="Stop">In µm from the left edge, or the leading edge, of the part on the trimmer.</param>
/// <param name="Knife">In µm: the clearance lost after the stop. The far part begins at stop + knife.</param>
public sealed record NumberedCut(int Number, Part Of, CutDirection Direction, long Stop, long Knife, Part Near, Part Far);

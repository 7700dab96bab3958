namespace Goodsheet.Room.Layout;

/// <summary>The cuts of one sheet in the order to make them, numbered from 1.</summary>
/// <remarks>
/// The margins go first. Then the near side of each cut is finished before its far side is taken up, so that one part
/// lies on the trimmer and the others wait in a row.
/// </remarks>
public static class CutList
{
    /// <summary>The part that is the whole sheet.</summary>
    public const int WholeSheet = 0;

    public static IReadOnlyList<NumberedCut> Of(Stock stock, CutSheet sheet)
    {
        var cuts = new List<NumberedCut>();
        var parts = 0;
        var whole = new Part(WholeSheet, new(0, 0, sheet.Width, sheet.Height));
        var m = stock.Margins;
        whole = Trim(whole, CutDirection.Along, m.Left.Micrometres, keepFar: true);
        whole = Trim(whole, CutDirection.Along, whole.Place.Width - m.Right.Micrometres, keepFar: false);
        whole = Trim(whole, CutDirection.Across, m.Lead.Micrometres, keepFar: true);
        whole = Trim(whole, CutDirection.Across, whole.Place.Height - m.Tail.Micrometres, keepFar: false);
        var wait = new Stack<(CutTree, Part)>([(sheet.Tree, whole)]);
        while (wait.TryPop(out var next))
        {
            if (next is (CutTree.Cut cut, var part))
            {
                var (near, far) = Make(part, cut.Direction, cut.At, stock.Gutter.Micrometres);
                wait.Push((cut.Far, far));
                wait.Push((cut.Near, near));
            }
        }

        return cuts;

        Part Trim(Part part, CutDirection direction, long stop, bool keepFar)
        {
            if (stop == 0 || stop == (direction is CutDirection.Along ? part.Place.Width : part.Place.Height))
            {
                return part;
            }

            var (near, far) = Make(part, direction, stop, 0);
            return keepFar ? far : near;
        }

        (Part Near, Part Far) Make(Part part, CutDirection direction, long stop, long gutter)
        {
            var at = part.Place;
            var room = (direction is CutDirection.Along ? at.Width : at.Height) - stop;
            var knife = Math.Min(gutter, room);
            var (near, far) = direction is CutDirection.Along
                ? (at with { Width = stop }, at with { X = at.X + stop + knife, Width = room - knife })
                : (at with { Height = stop }, at with { Y = at.Y + stop + knife, Height = room - knife });
            var made = (Near: new Part(++parts, near), Far: new Part(++parts, far));
            cuts.Add(new(cuts.Count + 1, part, direction, stop, knife, made.Near, made.Far));
            return made;
        }
    }
}

/// <summary>A part of a sheet while it is being cut: <see cref="CutList.WholeSheet"/>, or numbered as it came off.</summary>
public readonly record struct Part(int Number, Area Place);

/// <summary>One cut: set the stop, cut, and cut the clearance off the far part.</summary>
/// <param name="Stop">In µm from the left edge, or the leading edge, of the part on the trimmer.</param>
/// <param name="Knife">In µm: the clearance lost after the stop. The far part begins at stop + knife.</param>
public sealed record NumberedCut(int Number, Part Of, CutDirection Direction, long Stop, long Knife, Part Near, Part Far);

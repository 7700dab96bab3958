namespace Goodsheet.Room.Layout;

/// <summary>Checks a finished layout with code of its own: nothing here is shared with what lays pieces out.</summary>
/// <remarks>It cuts the paper as the cut list says, holds every part in hand, and compares what it then has with the pieces.</remarks>
public static class LayoutVerifier
{
    /// <summary>What is wrong, in words; empty if the layout is sound.</summary>
    public static IReadOnlyList<string> Check(Nest nest)
    {
        var faults = new List<string>();
        var made = new int[nest.Pieces.Count];
        foreach (var (sheet, index) in nest.Sheets.Select((s, i) => (s, i + 1)))
        {
            Inside(nest, sheet, index, faults);
            Apart(nest, sheet, index, faults);
            Cut(nest, sheet, index, faults);
            foreach (var placed in sheet.Placements)
            {
                made[placed.Piece]++;
                var piece = nest.Pieces[placed.Piece];
                var (w, h) = placed.Turned ? (piece.Height, piece.Width) : (piece.Width, piece.Height);
                if (placed.Place.Width != w.Micrometres || placed.Place.Height != h.Micrometres || (placed.Turned && !piece.MayTurn))
                {
                    faults.Add($"Sheet {index}: {piece.Name} is not laid in its own size or direction.");
                }
            }
        }

        faults.AddRange(nest.Pieces.Where((p, i) => made[i] != p.Copies).Select(p => $"{p.Name}: not as many as asked for."));
        return faults;
    }

    private static void Inside(Nest nest, CutSheet sheet, int index, List<string> faults)
    {
        var (stock, m) = (nest.Stock, nest.Stock.Margins);
        if (sheet.Width != stock.Width.Micrometres || (stock.Height is { } h && sheet.Height != h.Micrometres))
        {
            faults.Add($"Sheet {index}: it has not the size of the stock.");
        }

        foreach (var a in sheet.Placements.Select(p => p.Place))
        {
            if (a.X < m.Left.Micrometres || a.Y < m.Lead.Micrometres
                || a.X + a.Width > sheet.Width - m.Right.Micrometres || a.Y + a.Height > sheet.Height - m.Tail.Micrometres)
            {
                faults.Add($"Sheet {index}: a piece lies outside the margins.");
            }
        }
    }

    private static void Apart(Nest nest, CutSheet sheet, int index, List<string> faults)
    {
        var gutter = nest.Stock.Gutter.Micrometres;
        var sorted = sheet.Placements.Select(p => p.Place).OrderBy(a => a.X).ToArray();
        for (var i = 0; i < sorted.Length; i++)
        {
            for (var j = i + 1; j < sorted.Length && sorted[j].X < sorted[i].X + sorted[i].Width + gutter; j++)
            {
                if (sorted[i].Y < sorted[j].Y + sorted[j].Height + gutter && sorted[j].Y < sorted[i].Y + sorted[i].Height + gutter)
                {
                    faults.Add($"Sheet {index}: two pieces are nearer than the gutter.");
                }
            }
        }
    }

    private static void Cut(Nest nest, CutSheet sheet, int index, List<string> faults)
    {
        var hand = new Dictionary<int, Area> { [CutList.WholeSheet] = new(0, 0, sheet.Width, sheet.Height) };
        Int128 knife = 0;
        foreach (var cut in CutList.Of(nest.Stock, sheet))
        {
            if (!hand.Remove(cut.Of.Number, out var on))
            {
                faults.Add($"Sheet {index}, cut {cut.Number}: that part is not there to be cut.");
                return;
            }

            var side = cut.Direction == CutDirection.Along ? on.Width : on.Height;
            var rest = side - cut.Stop - cut.Knife;
            if (cut.Stop <= 0 || cut.Knife < 0 || rest < 0 || cut.Stop >= side)
            {
                faults.Add($"Sheet {index}, cut {cut.Number}: the stop is not within the part.");
                return;
            }

            if (cut.Direction == CutDirection.Along)
            {
                hand[cut.Near.Number] = new(on.X, on.Y, cut.Stop, on.Height);
                hand[cut.Far.Number] = new(on.X + side - rest, on.Y, rest, on.Height);
                knife += (Int128)cut.Knife * on.Height;
            }
            else
            {
                hand[cut.Near.Number] = new(on.X, on.Y, on.Width, cut.Stop);
                hand[cut.Far.Number] = new(on.X, on.Y + side - rest, on.Width, rest);
                knife += (Int128)cut.Knife * on.Width;
            }
        }

        Compare(sheet, hand, knife, index, faults);
    }

    private static void Compare(CutSheet sheet, Dictionary<int, Area> hand, Int128 knife, int index, List<string> faults)
    {
        Int128 parts = 0;
        foreach (var part in hand.Values)
        {
            parts += (Int128)part.Width * part.Height;
        }

        if (parts + knife != (Int128)sheet.Width * sheet.Height)
        {
            faults.Add($"Sheet {index}: parts and knife do not add up to the paper.");
        }

        var inHand = hand.Values.ToHashSet();
        // What is left over may be larger than the layout says, by a margin that was not cut off it; each is a part of its own.
        bool Holds(Area part, Area offcut) => part.X <= offcut.X && part.Y <= offcut.Y && part.X + part.Width >= offcut.X + offcut.Width && part.Y + part.Height >= offcut.Y + offcut.Height;
        bool Left(Area offcut) => inHand.Remove(offcut) || inHand.Where(p => Holds(p, offcut)).Take(1).ToArray() is [var part] && inHand.Remove(part);
        if (sheet.Placements.Any(p => !inHand.Remove(p.Place)) || !sheet.Offcuts.All(Left))
        {
            faults.Add($"Sheet {index}: the cuts do not give the pieces.");
        }
    }
}

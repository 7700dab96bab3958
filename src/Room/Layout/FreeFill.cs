namespace Goodsheet.Room.Layout;

/// <summary>Lays as much as it can on the free parts of sheets that hold something already.</summary>
/// <remarks>
/// Each piece goes where it leaves least beside it, and what it leaves is cut off as one long or one wide part (best short
/// side fit with guillotine splits: common practice, no source). Tried over again with the pieces in other orders.
/// </remarks>
internal sealed class FreeFill(IReadOnlyList<Piece> pieces, long gutter, IReadOnlyList<FreeArea> areas, int seed)
{
    private const int MostRounds = 300;
    private const int MostWork = 400_000; // places looked at: some hundredths of a second

    private Chance chance = new(seed);

    /// <param name="left">Copies of each piece still to be laid.</param>
    /// <returns>Copies of each piece that were laid; the areas hold their cuts.</returns>
    public int[] Fill(int[] left)
    {
        var none = new int[pieces.Count];
        var items = left.SelectMany((n, i) => Enumerable.Repeat(i, n)).ToArray();
        if (items.Length == 0 || areas.Count == 0)
        {
            return none;
        }

        var (best, most, work) = ((Round?)null, -1.0, 0L);
        var all = items.Sum(Size);
        for (var round = 0; round < MostRounds && work < MostWork && most < all; round++)
        {
            var tried = new Round(areas);
            var laid = 0.0;
            foreach (var item in Ordered(items, round))
            {
                work += tried.Open.Count;
                laid += tried.Place(item, pieces[item], gutter, alongFirst: round % 2 == 0) ? Size(item) : 0;
            }

            (best, most) = laid > most ? (tried, laid) : (best, most);
        }

        for (var i = 0; i < areas.Count; i++)
        {
            areas[i].Tree = best!.Roots[i].Tree(gutter);
        }

        best!.Laid.ForEach(item => none[item]++);
        return none;
    }

    private double Size(int item) => (double)pieces[item].Width.Micrometres * pieces[item].Height.Micrometres;

    private int[] Ordered(int[] items, int round)
    {
        var spread = round < 6 ? 0 : 0.5;
        var keys = items.Select(i => (1 - (spread * chance.Below(1 << 20) / (1 << 20))) * (round / 2 % 3) switch
        {
            0 => -Size(i),
            1 => -(double)Math.Max(pieces[i].Width.Micrometres, pieces[i].Height.Micrometres),
            _ => -(double)Math.Min(pieces[i].Width.Micrometres, pieces[i].Height.Micrometres),
        }).ToArray();
        var order = items.ToArray();
        Array.Sort(keys, order);
        return order;
    }

    private sealed class Round
    {
        public Round(IReadOnlyList<FreeArea> areas)
        {
            Roots = [.. areas.Select(a => new Spot(a.Width, a.Height))];
            Open = [.. Roots];
        }

        public List<Spot> Roots { get; }

        public List<Spot> Open { get; }

        public List<int> Laid { get; } = [];

        public bool Place(int item, Piece piece, long gutter, bool alongFirst)
        {
            (Spot? Spot, bool Turned, long Waste) best = (null, false, long.MaxValue);
            foreach (var spot in Open)
            {
                foreach (var turned in piece.MayTurn && piece.Width != piece.Height ? (bool[])[false, true] : [false])
                {
                    var (w, h) = Lying(piece, turned);
                    var waste = Math.Min(spot.Width - w, spot.Height - h);
                    if (w <= spot.Width && h <= spot.Height && waste < best.Waste)
                    {
                        best = (spot, turned, waste);
                    }
                }
            }

            if (best.Spot is not { } at)
            {
                return false;
            }

            Open.Remove(at);
            var (width, height) = Lying(piece, best.Turned);
            Open.AddRange(at.Take(item, best.Turned, width, height, gutter, alongFirst));
            Laid.Add(item);
            return true;
        }

        private static (long Width, long Height) Lying(Piece piece, bool turned) =>
            turned ? (piece.Height.Micrometres, piece.Width.Micrometres) : (piece.Width.Micrometres, piece.Height.Micrometres);
    }

    /// <summary>A free part, or one with a piece in its corner and two free parts beside it.</summary>
    private sealed class Spot(long width, long height)
    {
        private (int Item, bool Turned, long Width, long Height, bool AlongFirst)? laid;
        private Spot? beside, below;

        public long Width => width;

        public long Height => height;

        public IEnumerable<Spot> Take(int item, bool turned, long w, long h, long gutter, bool alongFirst)
        {
            laid = (item, turned, w, h, alongFirst);
            var (right, under) = (Math.Max(0, width - w - gutter), Math.Max(0, height - h - gutter));
            beside = new(right, alongFirst ? height : h);
            below = new(alongFirst ? w : width, under);
            return ((Spot[])[beside, below]).Where(s => s.Width > 0 && s.Height > 0);
        }

        public CutTree Tree(long gutter)
        {
            if (laid is not var (item, turned, w, h, alongFirst))
            {
                return CutTree.Offcut.One;
            }

            CutTree good = new CutTree.Good(item, turned);
            return alongFirst
                ? Along(w, Across(h, good, below!), beside!)
                : Across(h, Along(w, good, beside!), below!);

            CutTree Along(long at, CutTree near, Spot far) => at == width ? near : new CutTree.Cut(CutDirection.Along, at, near, far.Tree(gutter));

            CutTree Across(long at, CutTree near, Spot far) => at == height ? near : new CutTree.Cut(CutDirection.Across, at, near, far.Tree(gutter));
        }
    }
}

namespace Goodsheet.Room.Layout;

/// <summary>Cuts from edge to edge that part pieces which lie fixed, with as large a free part as can be had beside them.</summary>
/// <remarks>
/// A cut that goes through no piece keeps a layout cuttable if it was so, since what is left of its other cuts still parts the
/// rest. So each cut can be chosen for the free paper it gives, and nothing has to be tried twice.
/// </remarks>
internal sealed class HeldCuts(long gutter)
{
    private readonly List<FreeArea> free = [];

    /// <summary>Parts without a piece, for others to be laid on.</summary>
    public IReadOnlyList<FreeArea> Free => free;

    /// <summary>The cuts of a part, or none if some of its pieces cannot be cut apart.</summary>
    /// <param name="stuck">The pieces that cannot.</param>
    public Node? Part(Area part, IReadOnlyList<Placement> pieces, out IReadOnlyList<Placement> stuck)
    {
        stuck = [];
        if (pieces.Count == 0)
        {
            var area = new FreeArea(part);
            free.Add(area);
            return new(area);
        }

        if (pieces.Count == 1 && pieces[0].Place == part)
        {
            return new(new CutTree.Good(pieces[0].Piece, pieces[0].Turned));
        }

        if (Best(part, pieces) is not { } cut)
        {
            stuck = pieces;
            return null;
        }

        var (nearPart, farPart) = Cut(part, cut);
        var nearPieces = pieces.Where(p => IsNear(p.Place, cut)).ToArray();
        var near = Part(nearPart, nearPieces, out stuck);
        var far = near is null ? null : Part(farPart, [.. pieces.Except(nearPieces)], out stuck);
        return far is null ? null : new(cut.Direction, cut.At, near!, far);
    }

    private (CutDirection Direction, long At, long End)? Best(Area part, IReadOnlyList<Placement> pieces)
    {
        (CutDirection, long, long)? best = null;
        Int128 most = -1;
        foreach (var cut in Candidates(part, pieces))
        {
            var (near, far) = Cut(part, cut);
            var nears = pieces.Count(p => IsNear(p.Place, cut));
            var gives = nears == 0 ? near.Size : nears == pieces.Count ? far.Size : 0;
            if (gives > most)
            {
                (best, most) = (cut, gives);
            }
        }

        return best;
    }

    /// <summary>Before each piece, so that what is far begins with one; and after all of them. Elsewhere a strip might be left
    /// that is narrower than the knife.</summary>
    private IEnumerable<(CutDirection Direction, long At, long End)> Candidates(Area part, IReadOnlyList<Placement> pieces)
    {
        foreach (var end in pieces.Select(p => p.Place.X - gutter).Append(pieces.Max(p => p.Place.Right)))
        {
            if (end > part.X && end < part.Right && pieces.All(p => p.Place.Right <= end || p.Place.X >= end + gutter))
            {
                yield return (CutDirection.Along, end - part.X, end);
            }
        }

        foreach (var end in pieces.Select(p => p.Place.Y - gutter).Append(pieces.Max(p => p.Place.Bottom)))
        {
            if (end > part.Y && end < part.Bottom && pieces.All(p => p.Place.Bottom <= end || p.Place.Y >= end + gutter))
            {
                yield return (CutDirection.Across, end - part.Y, end);
            }
        }
    }

    private static bool IsNear(Area place, (CutDirection Direction, long At, long End) cut) =>
        cut.Direction is CutDirection.Along ? place.Right <= cut.End : place.Bottom <= cut.End;

    private (Area Near, Area Far) Cut(Area part, (CutDirection Direction, long At, long End) cut)
    {
        var rest = Math.Max(0, (cut.Direction is CutDirection.Along ? part.Width : part.Height) - cut.At - gutter);
        return cut.Direction is CutDirection.Along
            ? (part with { Width = cut.At }, part with { X = part.Right - rest, Width = rest })
            : (part with { Height = cut.At }, part with { Y = part.Bottom - rest, Height = rest });
    }

    /// <summary>A cut, a piece, or a free part that is filled later.</summary>
    public sealed class Node
    {
        private readonly CutTree? whole;
        private readonly FreeArea? area;
        private readonly (CutDirection Direction, long At, Node Near, Node Far) cut;

        public Node(CutTree whole) => this.whole = whole;

        public Node(FreeArea area) => this.area = area;

        public Node(CutDirection direction, long at, Node near, Node far) => cut = (direction, at, near, far);

        public CutTree Tree() => whole ?? area?.Tree ?? new CutTree.Cut(cut.Direction, cut.At, cut.Near.Tree(), cut.Far.Tree());
    }
}

/// <summary>Paper between pieces that lie fixed, and what is laid on it.</summary>
internal sealed class FreeArea(Area at)
{
    public long Width => at.Width;

    public long Height => at.Height;

    public CutTree Tree { get; set; } = CutTree.Offcut.One;
}

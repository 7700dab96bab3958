namespace Goodsheet.Room.Layout;

/// <summary>How a rectangle of paper is parted by cuts that go from edge to edge: a cut, a piece, or what is left.</summary>
/// <remarks>
/// A trimmer cuts a part right through, so only what such a tree can say can be cut on it. Sizes follow from the root's.
/// </remarks>
public abstract record CutTree
{
    private CutTree()
    {
    }

    /// <summary>One cut right through a part: near of it is left of the knife (or towards the lead), far of it is what remains.</summary>
    /// <param name="Direction">Which way the knife goes.</param>
    /// <param name="At">In µm from the part's near edge. The knife takes the gutter after it, or what there is if less.</param>
    public sealed record Cut(CutDirection Direction, long At, CutTree Near, CutTree Far) : CutTree;

    /// <summary>A part that is exactly one copy of a piece.</summary>
    public sealed record Good(int Piece, bool Turned) : CutTree;

    /// <summary>Paper that nothing was laid on; it may be of no size.</summary>
    public sealed record Offcut : CutTree
    {
        public static Offcut One { get; } = new();
    }
}

public enum CutDirection
{
    /// <summary>The knife goes along the feed, so the part is split into left and right.</summary>
    Along = 1,

    /// <summary>The knife goes across the feed, so the part is split into lead and tail.</summary>
    Across = 2,
}

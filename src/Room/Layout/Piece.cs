using Goodsheet.Room.Units;

namespace Goodsheet.Room.Layout;

/// <summary>A rectangle to be cut out, and how many of it.</summary>
/// <param name="MayTurn">False where grain or the picture's direction forbids a quarter turn.</param>
public sealed record Piece(string Name, Length Width, Length Height, int Copies = 1, bool MayTurn = true);

/// <summary>One copy of a piece where it lies on the paper, from the left edge and the leading edge.</summary>
/// <param name="Piece">Its index in the list of pieces.</param>
public readonly record struct Placement(int Piece, Area Place, bool Turned);

/// <summary>A rectangle on the paper, in micrometres from the left edge and the leading edge.</summary>
public readonly record struct Area(long X, long Y, long Width, long Height)
{
    public long Right => X + Width;

    public long Bottom => Y + Height;

    /// <summary>In square micrometres; exact for anything under a million square metres.</summary>
    public Int128 Size => (Int128)Width * Height;
}

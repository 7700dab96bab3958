namespace Goodsheet.Room.Layout;

/// <summary>One copy of a piece that a person put where it lies: all else is laid around it.</summary>
/// <param name="Piece">Its index in the list of pieces.</param>
/// <param name="Sheet">From 0; of a roll always 0.</param>
/// <param name="X">In µm from the left edge of the paper.</param>
/// <param name="Y">In µm from the leading edge.</param>
public readonly record struct HeldPiece(int Piece, int Sheet, long X, long Y, bool Turned);

using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Buying;

/// <summary>One consumable of a purchase order: ink, tanks, blades, counted in pieces.</summary>
public sealed class PiecesLine
{
    public required int Order { get; init; }

    /// <summary>Numbered together with the order's lines of paper.</summary>
    public required int Line { get; init; }

    public required ConsumableCode Consumable { get; init; }

    public required int Pieces { get; set; }

    /// <summary>Of one when it was ordered; none if the room has no price for it.</summary>
    public decimal? Price { get; init; }

    /// <summary>Why it was proposed, kept with it.</summary>
    public required string Reason { get; init; }

    /// <summary>What came so far and was put away.</summary>
    public long Came { get; set; }

    public long CameDamaged { get; set; }

    /// <summary>How much came that was not what was ordered, and went back.</summary>
    public long CameWrong { get; set; }

    /// <summary>Still to come: what was damaged or wrong has to come again.</summary>
    public long Missing => Math.Max(0, Pieces - Came);

    public decimal? Sum => Price * Pieces;
}

namespace Goodsheet.Room.Shelf;

/// <summary>Which paper may go to a client.</summary>
public static class ShelfRules
{
    public static bool MayGoToClient(Lot lot, DateOnly today) => lot.Condition is LotCondition.Sound && !lot.IsOutOfDate(today);
}

using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>The shelf as a query: for each lot its last checkpoint plus the moves since, in one statement.</summary>
public static class ShelfLines
{
    public static IQueryable<Line> Of(RoomDb db) =>
        from lot in db.Lots
        join checkpoint in db.Checkpoints on lot.Code equals checkpoint.Lot into checkpoints
        from checkpoint in checkpoints.DefaultIfEmpty()
        select new Line
        {
            Lot = lot.Code,
            Paper = lot.Paper,
            Format = lot.Format,
            Received = lot.Received,
            BestBefore = lot.BestBefore,
            ExtendedTo = lot.ExtendedTo,
            Place = lot.Place,
            Condition = lot.Condition,
            OnShelf = ((long?)checkpoint!.OnShelf ?? 0) + db.Moves
                .Where(m => m.Lot == lot.Code && m.Number > ((int?)checkpoint.Through ?? 0))
                .Sum(m => m.To == Account.Shelf ? m.Quantity : m.From == Account.Shelf ? -m.Quantity : 0),
        };

    /// <summary>A lot and what is left of it on the shelf.</summary>
    public sealed record Line
    {
        public required LotCode Lot { get; init; }

        public required PaperCode Paper { get; init; }

        public required FormatCode Format { get; init; }

        public required DateOnly Received { get; init; }

        public required DateOnly? BestBefore { get; init; }

        public required DateOnly? ExtendedTo { get; init; }

        public required string Place { get; init; }

        public required LotCondition Condition { get; init; }

        /// <summary>Sheets, or mm of roll.</summary>
        public required long OnShelf { get; init; }

        public DateOnly? GoodUntil => ExtendedTo > BestBefore ? ExtendedTo : BestBefore;

        public bool IsForClients(DateOnly today) => Condition is LotCondition.Sound && !(GoodUntil < today);
    }
}

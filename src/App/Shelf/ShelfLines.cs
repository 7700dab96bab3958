using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>The shelf as a query: for each lot its last checkpoint plus the moves since, in one statement.</summary>
public static class ShelfLines
{
    /// <summary>Every lot there ever was.</summary>
    public static IQueryable<Line> Of(RoomDb db) => Lines(db, Kept(db));

    /// <summary>The lots of which something is left on the shelf.</summary>
    /// <remarks>A checkpoint that says nothing is left speaks for all moves after it, so the used-up lots of ten years cost no fold.</remarks>
    public static IQueryable<Line> Left(RoomDb db) => Lines(db, Kept(db).Where(k => k.Checkpoint == null || k.Checkpoint.OnShelf > 0)).Where(l => l.OnShelf > 0);

    private static IQueryable<Pair> Kept(RoomDb db) =>
        from lot in db.Lots
        join checkpoint in db.Checkpoints on lot.Code equals checkpoint.Lot into checkpoints
        from checkpoint in checkpoints.DefaultIfEmpty()
        select new Pair { Lot = lot, Checkpoint = checkpoint };

    private static IQueryable<Line> Lines(RoomDb db, IQueryable<Pair> kept) =>
        kept.Select(k => new Line
        {
            Lot = k.Lot.Code,
            Paper = k.Lot.Paper,
            Format = k.Lot.Format,
            Received = k.Lot.Received,
            BestBefore = k.Lot.BestBefore,
            ExtendedTo = k.Lot.ExtendedTo,
            Place = k.Lot.Place,
            Condition = k.Lot.Condition,
            OnShelf = ((long?)k.Checkpoint!.OnShelf ?? 0) + db.Moves
                .Where(m => m.Lot == k.Lot.Code && m.Number > ((int?)k.Checkpoint.Through ?? 0))
                .Sum(m => m.To == Account.Shelf ? m.Quantity : m.From == Account.Shelf ? -m.Quantity : 0),
        });

    private sealed class Pair
    {
        public required Lot Lot { get; init; }

        public required LotBalance? Checkpoint { get; init; }
    }

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

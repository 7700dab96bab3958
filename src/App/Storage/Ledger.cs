using Microsoft.EntityFrameworkCore;
using Goodsheet.Room;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Storage;

/// <summary>The ledger of moves, as a use case reads and adds to it inside a step of <see cref="RoomStore.ChangeAsync{T}"/>.</summary>
public static class Ledger
{
    /// <summary>What the ledger says of a lot: the last checkpoint and the moves since.</summary>
    public static async Task<LotBalance> BalanceAsync(this RoomDb db, LotCode lot, CancellationToken cancel)
    {
        var balance = await db.Checkpoints.AsNoTracking().SingleOrDefaultAsync(c => c.Lot == lot, cancel)
            ?? LotBalance.Nothing(lot);
        var since = await db.Moves.AsNoTracking().Where(m => m.Lot == lot && m.Number > balance.Through)
            .OrderBy(m => m.Number).ToListAsync(cancel);
        return since.Aggregate(balance, (sofar, move) => sofar.After(move));
    }

    /// <summary>Adds a move, and a checkpoint when one is due. Gives the balance after it.</summary>
    public static async Task<LotBalance> AddAsync(this RoomDb db, Move move, LotBalance before, CancellationToken cancel)
    {
        db.Moves.Add(move);
        var after = before.After(move);
        if (after.CheckpointIsDue)
        {
            var old = await db.Checkpoints.SingleOrDefaultAsync(c => c.Lot == move.Lot, cancel);
            if (old is null)
            {
                db.Checkpoints.Add(after);
            }
            else
            {
                db.Entry(old).CurrentValues.SetValues(after);
            }
        }

        return after;
    }

    /// <summary>Whether this very wish was granted before. It is written down as granted when it is new.</summary>
    /// <param name="db">The step's own context.</param>
    /// <param name="wish">Who wishes, when, under which command.</param>
    /// <param name="content">All that was asked for, as text: a request's own ToString.</param>
    /// <param name="cancel">Stops waiting.</param>
    /// <returns>True when it was granted before, false when it is new, a refusal when its command was used for something else.</returns>
    public static async Task<Outcome<bool>> GrantedBeforeAsync(this RoomDb db, Wish wish, string content, CancellationToken cancel)
    {
        var earlier = await db.Commands.AsNoTracking().SingleOrDefaultAsync(c => c.Id == wish.Command, cancel);
        if (earlier is null)
        {
            db.Commands.Add(new() { Id = wish.Command, Content = content, At = wish.At, By = wish.By });
            return false;
        }

        return earlier.Content == content ? true : new CommandUsedOtherwise(wish.Command);
    }

    public static Task<List<Move>> MovesOfAsync(this RoomDb db, CommandId command, CancellationToken cancel) =>
        db.Moves.AsNoTracking().Where(m => m.Command == command).OrderBy(m => m.Line).ToListAsync(cancel);
}

using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Shelf;

/// <summary>What every change of one lot has in common: once per command, balance first, then one move by a rule.</summary>
internal static class OneLot
{
    /// <param name="room">Where the records are.</param>
    /// <param name="wish">Who, when, under which command.</param>
    /// <param name="content">All that was asked for, as text.</param>
    /// <param name="code">The lot.</param>
    /// <param name="rule">Gives the move, none when there is nothing to move, or a refusal.</param>
    /// <param name="cancel">Stops waiting.</param>
    public static Task<Outcome<Moved>> MoveAsync(
        this RoomStore room, Wish wish, string content, LotCode code,
        Func<RoomDb, Lot, LotBalance, Task<Outcome<Planned>>> rule, CancellationToken cancel) =>
        room.ChangeAsync<Moved>(async db =>
        {
            var before = await db.GrantedBeforeAsync(wish, content, cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            var lot = await db.Lots.FindAsync([code], cancel);
            if (lot is null)
            {
                return new NoSuchLot(code);
            }

            var balance = await db.BalanceAsync(code, cancel);
            if (before.Value)
            {
                return new Moved(code, (await db.MovesOfAsync(wish.Command, cancel)).FirstOrDefault(), balance);
            }

            var planned = await rule(db, lot, balance);
            if (!planned.Granted)
            {
                return planned.Refusal;
            }

            return planned.Value.Move is { } move
                ? new Moved(code, move, await db.AddAsync(move, balance, cancel))
                : new Moved(code, null, balance);
        }, cancel);

    public static Task<Outcome<Moved>> MoveAsync(
        this RoomStore room, Wish wish, string content, LotCode code,
        Func<Lot, LotBalance, Outcome<Move>> rule, CancellationToken cancel) =>
        room.MoveAsync(wish, content, code, (_, lot, balance) => Task.FromResult(Plan(rule(lot, balance))), cancel);

    private static Outcome<Planned> Plan(Outcome<Move> move) => move.Granted ? new Planned(move.Value) : move.Refusal;
}

/// <summary>The move a rule gave; none when there is nothing to move.</summary>
internal sealed record Planned(Move? Move);

/// <summary>What came of a change of one lot.</summary>
public sealed record Moved(LotCode Lot, Move? Move, LotBalance Balance);

public sealed record NoSuchLot(LotCode Lot) : Refusal($"No lot {Lot} is known. Read the label again.");

using Goodsheet.Room.People;
using Goodsheet.Room.Printers;

namespace Goodsheet.Room.Shelf;

/// <summary>Who wishes a move, when, and under which command: what every move carries.</summary>
public sealed record Wish(CommandId Command, PersonName By, DateTimeOffset At, string? Reason = null, string? Reference = null);

/// <summary>The rules by which paper of a lot may move.</summary>
public static class LotMoves
{
    /// <summary>Puts delivered paper on the shelf.</summary>
    public static Move PutAway(this Lot lot, LotBalance balance, long quantity, Wish wish) =>
        Write(lot, balance, Account.Supplier, Account.Shelf, quantity, wish);

    /// <summary>Takes paper to a printer for a client's work, or says why this lot cannot give it.</summary>
    public static Outcome<Move> Draw(this Lot lot, LotBalance balance, long quantity, PrinterCode printer, Wish wish, DateOnly today)
    {
        if (lot.Condition is not LotCondition.Sound)
        {
            return new LotIsNotSound(lot.Code, lot.Condition, lot.ConditionWhy);
        }

        return lot.IsOutOfDate(today)
            ? new LotOutOfDate(lot.Code, lot.GoodUntil!.Value)
            : Take(lot, balance, Account.Shelf, Account.At(printer), quantity, wish);
    }

    /// <summary>Takes paper for the room's own charts and strips: out of date is allowed, scrap is not.</summary>
    public static Outcome<Move> DrawForTests(this Lot lot, LotBalance balance, long quantity, Wish wish) =>
        lot.Condition is LotCondition.Scrap
            ? new LotIsNotSound(lot.Code, lot.Condition, lot.ConditionWhy)
            : Take(lot, balance, Account.Shelf, Account.Tests, quantity, wish);

    /// <summary>Books what a printer did with paper it was given: good, wasted by a cause, or used for a test.</summary>
    public static Outcome<Move> Use(this Lot lot, LotBalance balance, long quantity, PrinterCode printer, Account to, Wish wish) =>
        Take(lot, balance, Account.At(printer), to, quantity, wish);

    /// <summary>Brings unused paper back from a printer.</summary>
    public static Outcome<Move> BringBack(this Lot lot, LotBalance balance, long quantity, PrinterCode printer, Wish wish) =>
        Take(lot, balance, Account.At(printer), Account.Shelf, quantity, wish);

    public static Outcome<Move> Spoil(this Lot lot, LotBalance balance, long quantity, WasteCause cause, Wish wish) =>
        Take(lot, balance, Account.Shelf, Account.Waste(cause), quantity, wish);

    public static Outcome<Move> SendBack(this Lot lot, LotBalance balance, long quantity, Wish wish) =>
        Take(lot, balance, Account.Shelf, Account.Supplier, quantity, wish);

    /// <summary>Takes paper off the shelf to cut it into smaller pieces.</summary>
    public static Outcome<Move> TakeForTrimming(this Lot lot, LotBalance balance, long quantity, Wish wish) =>
        Take(lot, balance, Account.Shelf, Account.Trimmed, quantity, wish);

    /// <summary>Puts cut pieces on the shelf as a lot of their own.</summary>
    public static Move PutTrimmed(this Lot lot, LotBalance balance, long pieces, Wish wish, int line) =>
        Write(lot, balance, Account.Trimmed, Account.Shelf, pieces, wish, line);

    /// <summary>Makes the ledger agree with what was counted on the shelf; nothing when it already does.</summary>
    public static Move? Count(this Lot lot, LotBalance balance, long counted, Wish wish)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(counted);
        var difference = counted - balance.OnShelf;
        return difference switch
        {
            0 => null,
            > 0 => Write(lot, balance, Account.CountDifference, Account.Shelf, difference, wish),
            _ => Write(lot, balance, Account.Shelf, Account.CountDifference, -difference, wish),
        };
    }

    /// <summary>Undoes a move by its mirror image.</summary>
    public static Outcome<Move> Reverse(this Lot lot, LotBalance balance, Move mistake, Wish wish) =>
        Take(lot, balance, mistake.To, mistake.From, mistake.Quantity, wish);

    private static Outcome<Move> Take(Lot lot, LotBalance balance, Account from, Account to, long quantity, Wish wish) =>
        from.Holds && quantity > balance.Of(from)
            ? new NotEnough(lot.Code, from, quantity, balance.Of(from))
            : Write(lot, balance, from, to, quantity, wish);

    private static Move Write(Lot lot, LotBalance balance, Account from, Account to, long quantity, Wish wish, int line = 1)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(quantity);
        return new(
            lot.Code, balance.Through + 1, wish.Command, line, from, to, quantity, wish.Reason, wish.Reference, wish.At, wish.By);
    }
}

public sealed record DeliveredOutOfDate(LotCode Lot, DateOnly BestBefore)
    : Refusal($"Lot {Lot} was best before {BestBefore:yyyy-MM-dd}. Send it back, or put it away for tests.");

public sealed record LotOutOfDate(LotCode Lot, DateOnly Until)
    : Refusal($"Lot {Lot} was good until {Until:yyyy-MM-dd}. Nothing was moved. Take another lot, or prove it with a strip and extend it.");

public sealed record LotIsNotSound(LotCode Lot, LotCondition Condition, string? Why)
    : Refusal($"Lot {Lot} is {(Condition is LotCondition.Scrap ? "scrap" : "for tests only")}{(Why is null ? "" : $": {Why}")}. Nothing was moved.");

public sealed record NotEnough(LotCode Lot, Account Where, long Wanted, long Has)
    : Refusal($"Lot {Lot} has only {Has} {(Where == Account.Shelf ? "on the shelf" : $"at {Where.Name}")}, you asked for {Wanted}. Nothing was moved.");

using System.Collections.Immutable;

namespace Goodsheet.Room.Shelf;

/// <summary>Where a lot's paper is after its first <see cref="Through"/> moves.</summary>
/// <remarks>A fold over the ledger. Kept as a checkpoint now and then so that a fold stays short; it can be thrown away.</remarks>
public sealed class LotBalance
{
    /// <summary>A checkpoint is due after this many moves at the latest: a fold reads fewer rows of one lot.</summary>
    public const int CheckpointEvery = 25;

    private LotBalance(LotCode lot, int through, long onShelf, ImmutableSortedDictionary<string, long> atPrinters) =>
        (Lot, Through, OnShelf, AtPrinters) = (lot, through, onShelf, atPrinters);

    public LotCode Lot { get; private set; }

    public int Through { get; private set; }

    public long OnShelf { get; private set; }

    /// <summary>By the account's text, without those that are empty.</summary>
    public ImmutableSortedDictionary<string, long> AtPrinters { get; private set; }

    /// <summary>After so many moves, and whenever the shelf runs out of the lot or gets some of it again.</summary>
    /// <remarks>So a checkpoint that says nothing is left speaks for all moves after it: used-up lots need no fold.</remarks>
    public bool CheckpointIsDue { get; private init; }

    /// <summary>On the shelf and on printers together: what the room still has of it.</summary>
    public long InRoom => OnShelf + AtPrinters.Values.Sum();

    public static LotBalance Nothing(LotCode lot) =>
        new(lot, 0, 0, ImmutableSortedDictionary.Create<string, long>(StringComparer.Ordinal));

    public long Of(Account account) => account == Account.Shelf ? OnShelf : AtPrinters.GetValueOrDefault(account.Text);

    /// <exception cref="ArgumentOutOfRangeException">The move is of another lot, or not the next one.</exception>
    public LotBalance After(Move move)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(move.Lot, Lot);
        ArgumentOutOfRangeException.ThrowIfNotEqual(move.Number, Through + 1);
        var left = OnShelf + Change(move, Account.Shelf);
        return new(Lot, move.Number, left, Put(Put(AtPrinters, move.From, -move.Quantity), move.To, move.Quantity))
        {
            CheckpointIsDue = move.Number % CheckpointEvery == 0 || (left == 0) != (OnShelf == 0),
        };
    }

    private static long Change(Move move, Account account) =>
        move.To == account ? move.Quantity : move.From == account ? -move.Quantity : 0;

    private static ImmutableSortedDictionary<string, long> Put(
        ImmutableSortedDictionary<string, long> all, Account account, long quantity)
    {
        if (!account.IsPrinter)
        {
            return all;
        }

        var now = all.GetValueOrDefault(account.Text) + quantity;
        return now == 0 ? all.Remove(account.Text) : all.SetItem(account.Text, now);
    }
}

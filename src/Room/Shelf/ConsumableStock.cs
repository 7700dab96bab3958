namespace Goodsheet.Room.Shelf;

/// <summary>What is left of a consumable: a fold over all its moves. They are few: a cartridge a week.</summary>
public sealed class ConsumableStock
{
    private readonly Dictionary<int, long> onShelf = [];

    private ConsumableStock(Consumable consumable, IReadOnlyList<ConsumableLot> lots) => (Consumable, Lots) = (consumable, lots);

    public Consumable Consumable { get; }

    public IReadOnlyList<ConsumableLot> Lots { get; }

    /// <summary>How many moves it is a fold of.</summary>
    public int Through { get; private set; }

    /// <summary>The piece that is in the printer: its lot, and since when.</summary>
    public (int Lot, DateTimeOffset Since)? InPrinter { get; private set; }

    public long Left => onShelf.Values.Sum();

    public bool IsLow => Left <= Consumable.ReorderAt;

    public static ConsumableStock Of(Consumable consumable, IReadOnlyList<ConsumableLot> lots, IEnumerable<ConsumableMove> moves)
    {
        var stock = new ConsumableStock(consumable, lots);
        foreach (var move in moves.OrderBy(m => m.Number))
        {
            stock.Add(move);
        }

        return stock;
    }

    public long LeftOf(int lot) => onShelf.GetValueOrDefault(lot);

    /// <summary>What may still be used by its date.</summary>
    public long InDate(DateOnly today) => Lots.Where(l => !(l.BestBefore < today)).Sum(l => LeftOf(l.Number));

    /// <summary>The lots with something left, the one that is to be used first at the head.</summary>
    public IEnumerable<ConsumableLot> UseFirst() =>
        Lots.Where(l => LeftOf(l.Number) > 0).OrderBy(l => l.BestBefore ?? DateOnly.MaxValue).ThenBy(l => l.Number);

    public ConsumableMove PutAway(int lot, long quantity, Wish wish) => Write(lot, Account.Supplier, Account.Shelf, quantity, wish, 1, Through);

    /// <summary>Takes pieces to use them up, the first to expire first; of ink, into its printer, where the piece before it is done with.</summary>
    public Outcome<IReadOnlyList<ConsumableMove>> Take(long quantity, DateOnly today, bool pastItsDate, Wish wish)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(quantity);
        if (Consumable.GoesIntoPrinter && quantity > 1)
        {
            return new OneAtATime(Consumable.Name);
        }

        if (quantity > Left)
        {
            return new NotEnoughPieces(Consumable.Name, quantity, Left);
        }

        if (quantity > InDate(today) && !pastItsDate)
        {
            return new PastItsDate(Consumable.Name, InDate(today));
        }

        var moves = new List<ConsumableMove>();
        if (Consumable.GoesIntoPrinter && InPrinter is var (before, _))
        {
            moves.Add(Write(before, Account.At(Consumable.Printer!.Value), Account.Used, 1, wish, 1, Through));
        }

        var fresh = UseFirst().Where(l => !(l.BestBefore < today));
        foreach (var lot in pastItsDate ? fresh.Concat(UseFirst().Where(l => l.BestBefore < today)) : fresh)
        {
            var here = Math.Min(quantity, LeftOf(lot.Number));
            if (here > 0)
            {
                var to = Consumable.GoesIntoPrinter ? Account.At(Consumable.Printer!.Value) : Account.Used;
                moves.Add(Write(lot.Number, Account.Shelf, to, here, wish, moves.Count + 1, Through + moves.Count));
                quantity -= here;
            }
        }

        return moves;
    }

    /// <summary>Makes the record agree with what was counted of a lot; nothing when it does.</summary>
    public ConsumableMove? Count(int lot, long counted, Wish wish)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(counted);
        return (counted - LeftOf(lot)) switch
        {
            0 => null,
            > 0 and var more => Write(lot, Account.CountDifference, Account.Shelf, more, wish, 1, Through),
            var less => Write(lot, Account.Shelf, Account.CountDifference, -less, wish, 1, Through),
        };
    }

    private ConsumableMove Write(int lot, Account from, Account to, long quantity, Wish wish, int line, int through) =>
        new(Consumable.Code, through + 1, wish.Command, line, lot, from, to, quantity, wish.Reason, wish.At, wish.By);

    private void Add(ConsumableMove move)
    {
        Through = move.Number;
        onShelf[move.Lot] = LeftOf(move.Lot) + (move.To == Account.Shelf ? move.Quantity : move.From == Account.Shelf ? -move.Quantity : 0);
        InPrinter = move.To.IsPrinter ? (move.Lot, move.At) : move.From.IsPrinter ? null : InPrinter;
    }
}

public sealed record NotEnoughPieces(string Name, long Wanted, long Has)
    : Refusal($"Only {Has} of {Name} {(Has == 1 ? "is" : "are")} left, you asked for {Wanted}. Nothing was taken.");

public sealed record OneAtATime(string Name) : Refusal($"{Name} goes into the printer one at a time. Nothing was taken.");

public sealed record PastItsDate(string Name, long InDate)
    : Refusal($"Only {InDate} of {Name} {(InDate == 1 ? "is" : "are")} in date. Nothing was taken. Old ink can clog or shift in colour: order fresh, or say that it is used past its date.");

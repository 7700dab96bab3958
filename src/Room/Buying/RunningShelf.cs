namespace Goodsheet.Room.Buying;

/// <summary>What a shelf holds, owes and awaits while time runs: the bookkeeping under every simulation of stock.</summary>
/// <remarks>
/// Time is in any unit. What is wanted and not there is owed and given from the next delivery; the first to expire goes first.
/// What comes at an instant is there for what is wanted at that instant.
/// </remarks>
public sealed class RunningShelf
{
    private readonly List<(long Left, double Until)> lots = [];
    private readonly List<(double At, long Quantity, double Until)> coming = [];

    public double Now { get; private set; }

    public long OnShelf { get; private set; }

    /// <summary>Wanted and not given yet.</summary>
    public long Owed { get; private set; }

    public long OnTheWay { get; private set; }

    /// <summary>What was held, times how long: divided by the time run it is the usual stock.</summary>
    public double Held { get; private set; }

    /// <summary>What was owed, times how long.</summary>
    public double Awaited { get; private set; }

    public long Wanted { get; private set; }

    /// <summary>Of what was wanted, what was there at that instant.</summary>
    public long GivenAtOnce { get; private set; }

    public long Outdated { get; private set; }

    /// <summary>In the order they expire.</summary>
    public IReadOnlyList<(long Left, double Until)> Lots => lots;

    /// <summary>Begins the counting anew and keeps the shelf: what came before is warm-up.</summary>
    public void CountFromHere() => (Held, Awaited, Wanted, GivenAtOnce, Outdated) = (0, 0, 0, 0, 0);

    /// <param name="quantity">Put on the shelf now.</param>
    /// <param name="until">From this instant on it is out of date; infinity if it never is.</param>
    public void Put(long quantity, double until)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(quantity);
        var paid = Math.Min(Owed, quantity);
        Owed -= paid;
        var left = quantity - paid;
        if (left == 0)
        {
            return;
        }

        var at = lots.Count;
        while (at > 0 && lots[at - 1].Until > until)
        {
            at--;
        }

        lots.Insert(at, (left, until));
        OnShelf += left;
    }

    /// <summary>Sends for more.</summary>
    public void Order(long quantity, double comes, double until)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(comes, Now);
        var at = coming.Count;
        while (at > 0 && coming[at - 1].At > comes)
        {
            at--;
        }

        coming.Insert(at, (comes, quantity, until));
        OnTheWay += quantity;
    }

    /// <summary>Lets time pass: deliveries come, paper goes out of date.</summary>
    public void AdvanceTo(double time)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(time, Now);
        while (true)
        {
            var arrival = coming.Count > 0 ? coming[0].At : double.PositiveInfinity;
            var outdate = lots.Count > 0 ? lots[0].Until : double.PositiveInfinity;
            if (Math.Min(arrival, outdate) > time)
            {
                Pass(time);
                return;
            }

            Pass(Math.Max(Now, Math.Min(arrival, outdate)));
            if (outdate <= arrival)
            {
                Outdated += lots[0].Left;
                OnShelf -= lots[0].Left;
                lots.RemoveAt(0);
                continue;
            }

            var (_, quantity, until) = coming[0];
            coming.RemoveAt(0);
            OnTheWay -= quantity;
            Put(quantity, until);
        }
    }

    /// <summary>Somebody wants so much now.</summary>
    public void Take(long quantity)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(quantity);
        Wanted += quantity;
        var given = Math.Min(quantity, OnShelf);
        GivenAtOnce += given;
        OnShelf -= given;
        Owed += quantity - given;
        while (given > 0)
        {
            var (left, until) = lots[0];
            var from = Math.Min(left, given);
            given -= from;
            if (from == left)
            {
                lots.RemoveAt(0);
            }
            else
            {
                lots[0] = (left - from, until);
            }
        }
    }

    private void Pass(double time)
    {
        Held += OnShelf * (time - Now);
        Awaited += Owed * (time - Now);
        Now = time;
    }
}

using System.Globalization;
using System.Numerics;
using System.Runtime.InteropServices;
using Goodsheet.Room.Runs;

namespace Goodsheet.Tests.Shared;

/// <summary>
/// The published problem that holds the search to outside figures: one machine, setups by what went before, weighted
/// tardiness (instances of V. A. Cicirello).
/// </summary>
/// <remarks>An exchange only shifts stretches of work by one amount each, so what it costs is a handful of sums of
/// weight x max(0, lateness + shift), several places at once.</remarks>
internal sealed class OneMachine : IOrdering
{
    private static readonly int Wide = Vector<int>.Count;
    private static readonly Vector<int>[] Masks = [.. Enumerable.Range(0, Wide).Select(n => new Vector<int>([.. Enumerable.Range(0, Wide).Select(i => i < n ? -1 : 0)]))];

    private readonly int[] work, weight, due;
    private readonly int[][] setup;
    private readonly int[] step;
    private readonly int[] order, kept, spare, end, took, late, weights; // took: with the setup before it
    private readonly long[] before;

    private OneMachine(int[] work, int[] weight, int[] due, int[][] setup)
    {
        (this.work, this.weight, this.due, this.setup) = (work, weight, due, setup);
        var n = work.Length;
        (order, kept, spare, end, took, before) = (new int[n], new int[n], new int[n], new int[n], new int[n], new long[n + 1]);
        (late, weights) = (new int[n + Wide], new int[n + Wide]);
        step = [.. setup.SelectMany(s => s.Select((t, j) => t + work[j]))];
        Start();
        Measure(0, order.Length);
        Keep();
    }

    public int Lanes => 1;

    public double Cost => before[^1];

    public int Count(int lane) => order.Length;

    public static OneMachine Read(string file) => Of(File.ReadAllLines(file));

    public static OneMachine Of(IReadOnlyList<string> lines)
    {
        var size = int.Parse(lines.Single(l => l.StartsWith("Problem Size:", StringComparison.Ordinal)).Split(':')[1], CultureInfo.InvariantCulture);
        var setup = new int[size + 1][];
        for (var i = 0; i <= size; i++)
        {
            setup[i] = new int[size];
        }

        foreach (var row in lines.SkipWhile(l => !l.StartsWith("Setup", StringComparison.Ordinal)).Skip(1).Select(l => l.Split('\t')).TakeWhile(f => f.Length == 3))
        {
            setup[Number(row[0]) + 1][Number(row[1])] = Number(row[2]);
        }

        return new(Column("Process Times:"), Column("Weights:"), Column("Duedates:"), setup);

        int[] Column(string head) => [.. lines.SkipWhile(l => l != head).Skip(1).Take(size).Select(Number)];
        static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
    }

    public double CostAfter(in Exchange x, double limit)
    {
        var (a, b) = (x.A, x.B);
        var (endA, endB) = (a + x.LengthA, b + x.LengthB);
        long cost = before[a];
        var last = a == 0 ? -1 : order[a - 1];
        var time = a == 0 ? 0 : end[a - 1];
        Add(b, endB);
        Add(endA, b);
        if (cost > limit)
        {
            return double.PositiveInfinity;
        }

        Add(a, endA);
        Add(endB, order.Length);
        return cost;

        void Add(int from, int to)
        {
            if (from == to)
            {
                return;
            }

            var job = order[from];
            var shift = time + step[((last + 1) * order.Length) + job] - end[from];
            cost += shift == 0 ? before[to] - before[from] : Shifted(from, to, shift);
            last = order[to - 1];
            time = end[to - 1] + shift;
        }
    }

    public double MoreChanging(in Exchange x)
    {
        unchecked
        {
            var size = order.Length;
            var (a, b) = (x.A, x.B);
            var (endA, endB) = (a + x.LengthA, b + x.LengthB);
            var last = a == 0 ? -1 : order[a - 1];
            var more = 0;
            Add(b, endB);
            Add(endA, b);
            Add(a, endA);
            return endB == size ? more : more + step[((last + 1) * size) + order[endB]] - took[endB];

            void Add(int from, int to)
            {
                if (from < to)
                {
                    more += step[((last + 1) * size) + order[from]] - took[from];
                    last = order[to - 1];
                }
            }
        }
    }

    public void Make(in Exchange x)
    {
        var (endA, endB) = (x.A + x.LengthA, x.B + x.LengthB);
        Array.Copy(order, x.A, spare, 0, endB - x.A);
        Array.Copy(spare, x.B - x.A, order, x.A, x.LengthB);
        Array.Copy(spare, x.LengthA, order, x.A + x.LengthB, x.B - endA);
        Array.Copy(spare, 0, order, endB - x.LengthA, x.LengthA);
        Measure(x.A, endB);
    }

    public void Keep() => order.CopyTo(kept, 0);

    public void GoBack()
    {
        kept.CopyTo(order, 0);
        Measure(0, order.Length);
    }

    /// <summary>What the present order costs, counted plainly from the statement of the problem.</summary>
    public long Plainly()
    {
        var (time, cost, last) = (0, 0L, -1);
        foreach (var job in order)
        {
            time += setup[last + 1][job] + work[job];
            cost += (long)weight[job] * Math.Max(0, time - due[job]);
            last = job;
        }

        return order.Distinct().Count() == work.Length ? cost : throw new InvalidOperationException("A job is missing.");
    }

    /// <summary>All setups of the present order, counted plainly.</summary>
    public long PlainSetups() => order.Select((job, at) => (long)setup[at == 0 ? 0 : order[at - 1] + 1][job]).Sum();

    /// <summary>The least cost of all orders, by trying each: for a handful of jobs.</summary>
    public long LeastOfAll()
    {
        var used = new bool[work.Length];
        return Least(0, -1, 0);

        long Least(int time, int last, int many)
        {
            var least = many == work.Length ? 0 : long.MaxValue;
            for (var job = 0; job < work.Length; job++)
            {
                if (!used[job])
                {
                    used[job] = true;
                    var end = time + step[((last + 1) * work.Length) + job];
                    least = Math.Min(least, ((long)weight[job] * Math.Max(0, end - due[job])) + Least(end, job, many + 1));
                    used[job] = false;
                }
            }

            return least;
        }
    }

    private int Shifted(int from, int to, int shift)
    {
        var by = new Vector<int>(shift);
        var sum = Vector<int>.Zero;
        ref var l = ref MemoryMarshal.GetArrayDataReference(late);
        ref var w = ref MemoryMarshal.GetArrayDataReference(weights);
        var i = from;
        for (; i + Wide <= to; i += Wide)
        {
            sum += Vector.Max(Vector.LoadUnsafe(ref l, (nuint)i) + by, Vector<int>.Zero) * Vector.LoadUnsafe(ref w, (nuint)i);
        }

        if (i < to)
        {
            sum += Vector.Max(Vector.LoadUnsafe(ref l, (nuint)i) + by, Vector<int>.Zero) * (Vector.LoadUnsafe(ref w, (nuint)i) & Masks[to - i]);
        }

        return Vector.Sum(sum);
    }

    // Up to the changed end each place is looked at; behind it all is shifted by one amount.
    private void Measure(int from, int to)
    {
        var last = from == 0 ? -1 : order[from - 1];
        var time = from == 0 ? 0 : end[from - 1];
        var sum = before[from];
        var size = order.Length;
        for (var i = from; i < size; i++)
        {
            var job = order[i];
            if (i >= to)
            {
                var was = end[i];
                took[i] = step[((last + 1) * size) + job];
                time += took[i];
                var shift = time - was;
                for (var j = i; j < size; j++)
                {
                    end[j] += shift;
                    late[j] += shift;
                    sum += weights[j] * Math.Max(0, late[j]);
                    before[j + 1] = sum;
                }

                return;
            }

            took[i] = step[((last + 1) * size) + job];
            time += took[i];
            (end[i], late[i], weights[i]) = (time, time - due[job], weight[job]);
            sum += weights[i] * Math.Max(0, late[i]);
            before[i + 1] = sum;
            last = job;
        }
    }

    // Apparent tardiness cost with setups (Lee, Bhaskaran, Pinedo, IIE Transactions 29, 1997; from memory), k1 = 2, k2 = 0.5.
    private void Start()
    {
        var open = Enumerable.Range(0, work.Length).ToList();
        var (meanWork, meanSetup) = (work.Average(), setup.SelectMany(s => s).Average());
        var (time, last) = (0, -1);
        for (var i = 0; i < order.Length; i++)
        {
            var next = open.MaxBy(j => weight[j] / (double)work[j] * Math.Exp(-Math.Max(due[j] - work[j] - time, 0) / (2 * meanWork)) * Math.Exp(-setup[last + 1][j] / (0.5 * meanSetup)));
            open.Remove(next);
            order[i] = next;
            time += setup[last + 1][next] + work[next];
            last = next;
        }
    }
}

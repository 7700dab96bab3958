namespace Goodsheet.Room.Control;

/// <summary>How many strips simple charts read, on average, before they say "moved".</summary>
/// <remarks>
/// Shifts and limits are in standard deviations of one strip; a shift of 0 gives the strips between false alarms. The
/// running charts are Markov chains over narrow states (Brook and Evans 1972, from memory), counted from a fresh start.
/// </remarks>
public static class RunLength
{
    private const int States = 201;

    /// <summary>One strip alone, either way.</summary>
    public static double Shewhart(double limit, double shift) => 1 / (1 - Between(-limit - shift, limit - shift));

    /// <summary>One strip alone in three directions at once: the squared distance against a limit.</summary>
    public static double ThreeWays(double limit, double shift)
    {
        var r = Math.Sqrt(limit);
        var near = shift == 0 ? 2 * r * Density(r) : (Density(r - shift) - Density(r + shift)) / shift;
        return 1 / (1 - Between(-r - shift, r - shift) + near);
    }

    /// <summary>A running mean that gives the newest strip a weight, either way; the limit in its own standard deviations.</summary>
    public static double Ewma(double weight, double limit, double shift)
    {
        var half = limit * Math.Sqrt(weight / (2 - weight));
        var width = 2 * half / States;
        double At(int i) => -half + ((i + 0.5) * width);
        double Go(int from, double edge) => ((edge - ((1 - weight) * At(from))) / weight) - shift;
        return FromState(States / 2, States, (i, j) => Between(Go(i, At(j) - (width / 2)), Go(i, At(j) + (width / 2))));
    }

    /// <summary>Two sums of what goes beyond a reference value, one each way.</summary>
    public static double Cusum(double reference, double limit, double shift) =>
        1 / ((1 / OneWay(reference, limit, shift)) + (1 / OneWay(reference, limit, -shift)));

    private static double OneWay(double reference, double limit, double shift)
    {
        // State 0 holds all that is 0 or less and half a step above.
        var width = 2 * limit / ((2 * States) - 1);
        return FromState(0, States, (i, j) =>
        {
            var to = ((j - i) * width) + reference - shift;
            return j == 0 ? Below(to + (width / 2)) : Between(to - (width / 2), to + (width / 2));
        });
    }

    // Solves (I − Q) run = 1 by elimination with the largest pivot.
    private static double FromState(int start, int n, Func<int, int, double> chance)
    {
        var a = new double[n][];
        for (var i = 0; i < n; i++)
        {
            a[i] = new double[n + 1];
            for (var j = 0; j < n; j++)
            {
                a[i][j] = (i == j ? 1 : 0) - chance(i, j);
            }

            a[i][n] = 1;
        }

        for (var k = 0; k < n; k++)
        {
            var pivot = Enumerable.Range(k, n - k).MaxBy(i => Math.Abs(a[i][k]));
            (a[k], a[pivot]) = (a[pivot], a[k]);
            for (var i = 0; i < n; i++)
            {
                var f = i == k ? 0 : a[i][k] / a[k][k];
                for (var j = k; f != 0 && j <= n; j++)
                {
                    a[i][j] -= f * a[k][j];
                }
            }
        }

        return a[start][n] / a[start][start];
    }

    private static double Between(double from, double to) => Below(to) - Below(from);

    private static double Density(double x) => Math.Exp(-x * x / 2) / Math.Sqrt(2 * Math.PI);

    // The normal distribution by the series of Marsaglia, J. Stat. Software 11(4), 2004 (from memory).
    private static double Below(double x)
    {
        if (Math.Abs(x) > 7)
        {
            return x > 0 ? 1 : 0;
        }

        var (sum, term) = (x, x);
        for (var k = 3; Math.Abs(term) > Math.Abs(sum) * 1e-16; k += 2)
        {
            term *= x * x / k;
            sum += term;
        }

        return 0.5 + (Density(x) * sum);
    }
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Gamut;

namespace Goodsheet.Colour.Profiles;

/// <summary>From a wanted colour to the device values that print it, or to those that print it best.</summary>
/// <remarks>
/// Damped Gauss-Newton from the nearest node of a coarse grid. A colour that can be printed is met exactly. One just
/// outside is met by device values a little beyond 0 to 1, for tables whose output curves clip. One far outside goes to
/// the surface where (dL/1)² + (dC/2)² + (dH/1)² is least, judged in a space of straight hues.
/// </remarks>
internal sealed class Inversion
{
    /// <summary>How far beyond 0 to 1 a node of a clipped table may lie.</summary>
    public const double Over = 0.2;

    private const int MostSteps = 30;
    private const double Met = 0.02;       // in L*a*b*: well under what 16 bits and a reading tell apart
    private const double Exact = 1e-6;     // the square of a thousandth: no use going on
    private const double Progress = 1e-5;  // of what is wrong: a step that gains less is the last
    private const double NearlyBest = 1.25; // times as far off as the nearest colour
    private const double KeepBlack = 0.6;  // how strongly the wanted black is kept while the colour is not yet met
    private const double KeepBlackFirst = 60; // how strongly at first: .01 of black counts as much as .6 L*
    private const double OverLimit = 60;   // per 100 % of ink over the limit

    private readonly DeviceLattice lattice;
    private readonly double limit;
    private readonly double[] seeds;
    private readonly double[] seedLab;
    private readonly double[][] seedPlanes;

    /// <param name="lattice">The printing condition, relative to the paper.</param>
    /// <param name="inkLimit">The most ink of all channels together, 1 a channel; CMYK only.</param>
    public Inversion(DeviceLattice lattice, double inkLimit)
    {
        (this.lattice, limit) = (lattice, inkLimit);
        var n = lattice.Channels;
        var points = n == 4 ? 7 : 15;
        var count = (int)Math.Pow(points, n);
        (seeds, seedLab) = (new double[count * n], new double[count * 3]);
        for (var i = 0; i < count; i++)
        {
            for (int c = n - 1, left = i; c >= 0; c--, left /= points)
            {
                seeds[(i * n) + c] = left % points / (points - 1.0);
            }

            lattice.Evaluate(seeds.AsSpan(i * n, n), seedLab.AsSpan(3 * i, 3));
        }

        seedPlanes = [.. Enumerable.Range(0, 3).Select(k => Enumerable.Range(0, count).Select(i => seedLab[(3 * i) + k]).ToArray())];
    }

    /// <summary>Finds the device values for a colour.</summary>
    /// <param name="wanted">Relative to the paper.</param>
    /// <param name="mayGoOver">Whether values a little beyond 0 to 1 may come out: three channels only.</param>
    /// <param name="black">The black wanted; NaN for three channels.</param>
    /// <param name="device">Filled with the values.</param>
    /// <returns>How far off the printed colour is, in L*a*b*; 0 when it is met, over the edge or not.</returns>
    public double Find(Lab wanted, bool mayGoOver, double black, Span<double> device)
    {
        Seed(wanted, black, device);
        if (lattice.Channels == 4)
        {
            // First with the black that is wanted: a search that may take any black stops at one that chance led it to, and
            // neighbouring nodes at others.
            device[3] = black;
            if (Search(new Residual(this, wanted, hueLinear: false, black, KeepBlackFirst), device, 0, 1) < Met * Met && !CutToLimit(device))
            {
                return 0;
            }
        }

        var straight = new Residual(this, wanted, hueLinear: false, black);
        if (lattice.Channels == 3 && mayGoOver)
        {
            Span<double> free = stackalloc double[3];
            device.CopyTo(free);
            var met = Search(straight, free, -Over, 1 + Over) < Met * Met;
            for (var i = 0; i < 3; i++)
            {
                device[i] = Math.Clamp(free[i], 0, 1);
            }

            if (met && (device.SequenceEqual(free) || ClipsWell(wanted, device)))
            {
                free.CopyTo(device);
                return 0;
            }

            // What even values beyond 0 to 1 do not meet, those within do not either: on to the nearest.
        }
        else if (Search(straight, device, 0, 1) < Met * Met && !CutToLimit(device))
        {
            return 0;
        }

        Search(new Residual(this, wanted, hueLinear: true, black), device, 0, 1);
        CutToLimit(device);
        Span<double> got = stackalloc double[3];
        lattice.Evaluate(device, got);
        return Math.Sqrt(Square(got[0] - wanted.L) + Square(got[1] - wanted.A) + Square(got[2] - wanted.B));
    }

    // Whether values from beyond 0 to 1, once clipped, print about as near as can be. Clipped from beyond a corner of the
    // cube they need not: a dark green asked for below black came out eight L* too light.
    private bool ClipsWell(Lab wanted, ReadOnlySpan<double> clipped)
    {
        Span<double> nearest = stackalloc double[3];
        Span<double> r = stackalloc double[Residual.Most];
        clipped.CopyTo(nearest);
        var off = new Residual(this, wanted, hueLinear: true, double.NaN);
        var there = Math.Sqrt(off.At(clipped, r));
        return there <= Met || there <= (NearlyBest * Math.Sqrt(Search(off, nearest, 0, 1))) + Met;
    }

    // What the search left above the limit is taken from the colours, not from the black.
    private bool CutToLimit(Span<double> device)
    {
        if (device.Length != 4 || device[0] + device[1] + device[2] + device[3] <= limit)
        {
            return false;
        }

        var part = (limit - device[3]) / (device[0] + device[1] + device[2]);
        for (var i = 0; i < 3; i++)
        {
            device[i] *= part;
        }

        return true;
    }

    private void Seed(Lab wanted, double black, Span<double> device)
    {
        var n = lattice.Channels;
        var best = 0;
        if (n == 4)
        {
            var least = double.MaxValue;
            for (var i = 0; i < seedLab.Length / 3; i++)
            {
                var d = Square(seedLab[3 * i] - wanted.L)
                    + (Square(seedLab[(3 * i) + 1] - wanted.A) + Square(seedLab[(3 * i) + 2] - wanted.B)) / 2
                    + Square(20 * (seeds[(4 * i) + 3] - black));
                if (d < least)
                {
                    (best, least) = (i, d);
                }
            }
        }
        else
        {
            best = NearestColour.Of(seedPlanes, wanted);
        }

        seeds.AsSpan(best * n, n).CopyTo(device);
    }

    // Levenberg-Marquardt with values held at their bounds. Gives the square of the colour's part of the residual.
    private double Search(Residual residual, Span<double> device, double low, double high)
    {
        var n = device.Length;
        Span<double> r = stackalloc double[Residual.Most];
        Span<double> trial = stackalloc double[Residual.Most];
        Span<double> jacobian = stackalloc double[Residual.Most * 4];
        Span<double> next = stackalloc double[4];
        Span<double> step = stackalloc double[4];
        next = next[..n];
        var (damping, cost) = (1e-3, residual.At(device, r));
        for (var k = 0; k < MostSteps && cost > Exact; k++)
        {
            residual.Slopes(device, r, jacobian);
            var improved = false;
            for (var attempt = 0; attempt < 6 && !improved; attempt++)
            {
                Solve(jacobian, r, device, low, high, damping, step);
                for (var i = 0; i < n; i++)
                {
                    next[i] = Math.Clamp(device[i] + step[i], low, high);
                }

                var there = residual.At(next, trial);
                if (there < cost)
                {
                    improved = cost - there > Progress * cost;
                    next.CopyTo(device);
                    trial.CopyTo(r);
                    (cost, damping) = (there, Math.Max(damping / 8, 1e-9));
                    if (!improved)
                    {
                        return Residual.Colour(r);
                    }
                }
                else
                {
                    damping = Math.Max(damping * 8, 1e-6);
                }
            }

            if (!improved)
            {
                break;
            }
        }

        return Residual.Colour(r);
    }

    private static void Solve(
        ReadOnlySpan<double> jacobian, ReadOnlySpan<double> r, ReadOnlySpan<double> device, double low, double high, double damping, Span<double> step)
    {
        var n = device.Length;
        Span<double> a = stackalloc double[4 * 5];
        for (var i = 0; i < n; i++)
        {
            var gradient = 0.0;
            for (var m = 0; m < Residual.Most; m++)
            {
                gradient += jacobian[(m * 4) + i] * r[m];
            }

            a[(i * 5) + 4] = -gradient;
        }

        for (var i = 0; i < n; i++)
        {
            var held = (device[i] <= low && a[(i * 5) + 4] < 0) || (device[i] >= high && a[(i * 5) + 4] > 0);
            for (var j = 0; j < n; j++)
            {
                var sum = 0.0;
                for (var m = 0; m < Residual.Most; m++)
                {
                    sum += jacobian[(m * 4) + i] * jacobian[(m * 4) + j];
                }

                a[(i * 5) + j] = held ? (i == j ? 1 : 0) : sum;
            }

            if (held)
            {
                a[(i * 5) + 4] = 0;
            }
            else
            {
                a[(i * 5) + i] += damping * (a[(i * 5) + i] + 1);
            }
        }

        Eliminate(a, n, step);
    }

    private static void Eliminate(Span<double> a, int n, Span<double> x)
    {
        for (var p = 0; p < n; p++)
        {
            var pivot = a[(p * 5) + p];
            pivot = Math.Abs(pivot) < 1e-12 ? 1e-12 : pivot;
            for (var i = p + 1; i < n; i++)
            {
                var factor = a[(i * 5) + p] / pivot;
                for (var j = p; j < n; j++)
                {
                    a[(i * 5) + j] -= factor * a[(p * 5) + j];
                }

                a[(i * 5) + 4] -= factor * a[(p * 5) + 4];
            }
        }

        for (var i = n - 1; i >= 0; i--)
        {
            var sum = a[(i * 5) + 4];
            for (var j = i + 1; j < n; j++)
            {
                sum -= a[(i * 5) + j] * x[j];
            }

            var pivot = a[(i * 5) + i];
            x[i] = sum / (Math.Abs(pivot) < 1e-12 ? 1e-12 : pivot);
        }
    }

    private static double Square(double x) => x * x;

    /// <summary>What is wrong with a set of device values: three parts colour, one part black, one part too much ink.</summary>
    private readonly struct Residual
    {
        public const int Most = 5;

        private const double SlopeStep = 2e-3;

        private readonly Inversion owner;
        private readonly bool hueLinear;
        private readonly double black;
        private readonly double keep;
        private readonly (double X, double Y, double Z) wanted;
        private readonly double cos;
        private readonly double sin;

        public Residual(Inversion owner, Lab wanted, bool hueLinear, double black, double keep = KeepBlack)
        {
            (this.owner, this.hueLinear, this.black, this.keep) = (owner, hueLinear, black, keep);
            this.wanted = hueLinear ? HueLinear.From(wanted) : (wanted.L, wanted.A, wanted.B);
            var chroma = double.Hypot(this.wanted.Y, this.wanted.Z);
            (cos, sin) = chroma > 1e-6 ? (this.wanted.Y / chroma, this.wanted.Z / chroma) : (1, 0);
        }

        public static double Colour(ReadOnlySpan<double> r) => Square(r[0]) + Square(r[1]) + Square(r[2]);

        public double At(ReadOnlySpan<double> device, Span<double> r)
        {
            Span<double> lab = stackalloc double[3];
            owner.lattice.Evaluate(device, lab);
            if (hueLinear)
            {
                var (i, p, t) = HueLinear.From(new(lab[0], lab[1], lab[2]));
                var (dP, dT) = (p - wanted.Y, t - wanted.Z);
                r[0] = i - wanted.X;
                r[1] = ((dP * cos) + (dT * sin)) / 2; // chroma counts half
                r[2] = (dT * cos) - (dP * sin);
            }
            else
            {
                (r[0], r[1], r[2]) = (lab[0] - wanted.X, lab[1] - wanted.Y, lab[2] - wanted.Z);
            }

            r[3] = device.Length == 4 ? keep * (device[3] - black) : 0;
            var over = device.Length == 4 ? device[0] + device[1] + device[2] + device[3] - owner.limit : 0;
            r[4] = over > 0 ? OverLimit * over : 0;
            return Colour(r) + Square(r[3]) + Square(r[4]);
        }

        public void Slopes(ReadOnlySpan<double> device, ReadOnlySpan<double> r, Span<double> jacobian)
        {
            Span<double> at = stackalloc double[4];
            Span<double> there = stackalloc double[Most];
            at = at[..device.Length];
            for (var i = 0; i < device.Length; i++)
            {
                device.CopyTo(at);
                var step = device[i] > 0.5 ? -SlopeStep : SlopeStep;
                at[i] += step;
                At(at, there);
                for (var m = 0; m < Most; m++)
                {
                    jacobian[(m * 4) + i] = (there[m] - r[m]) / step;
                }
            }
        }
    }
}

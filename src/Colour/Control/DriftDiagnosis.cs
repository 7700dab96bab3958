namespace Goodsheet.Colour.Control;

/// <summary>Why a printing condition moved.</summary>
public enum DriftCause
{
    /// <summary>No more than noise.</summary>
    Nothing,

    /// <summary>The paper's white: another lot, age, light.</summary>
    Paper,

    /// <summary>The cyan channel alone.</summary>
    Cyan,

    /// <summary>The magenta channel alone.</summary>
    Magenta,

    /// <summary>The yellow channel alone.</summary>
    Yellow,

    /// <summary>The black channel alone.</summary>
    Black,

    /// <summary>All inks alike: head, temperature, humidity, media setting.</summary>
    AllInks,

    /// <summary>Every patch alike, the paper too: a dirty white tile, or the instrument.</summary>
    Instrument,
}

/// <summary>What explains a strip best.</summary>
/// <param name="Cause">The likeliest cause.</param>
/// <param name="Chance">Of this cause among all that were weighed, 0 to 1.</param>
/// <param name="Other">The next likeliest.</param>
/// <param name="Explained">How much of the strip's shift it explains, 0 to 1, in robust squares.</param>
public sealed record DriftDiagnosis(DriftCause Cause, double Chance, DriftCause Other, double Explained)
{
    private const double CanTell = 0.8;
    private const double AsSure = 0.95;
    private const double MoreThanNoise = 20; // robust squares: by chance once in some thousands of strips

    private static readonly (DriftCause Cause, int[][] Groups)[] Known =
    [
        (DriftCause.Paper, [[8], [9]]), (DriftCause.Cyan, [[0], [4]]), (DriftCause.Magenta, [[1], [5]]), (DriftCause.Yellow, [[2], [6]]),
        (DriftCause.Black, [[3], [7]]), (DriftCause.AllInks, [[0, 1, 2, 3]]), (DriftCause.Instrument, [[9]]),
    ];

    internal static int[][] Everything { get; } = [.. Enumerable.Range(0, DriftForm.Numbers).Select(k => (int[])[k])];

    /// <summary>Whether the evidence suffices to name a cause at all.</summary>
    public bool Tells => Chance >= CanTell;

    /// <summary>Whether it may be said without "probably".</summary>
    public bool Sure => Chance >= AsSure;

    /// <summary>Weighs every single cause against the strip.</summary>
    /// <remarks>Squares left, plus half the logarithm of the number of readings for each number that was fitted; chances
    /// as from the Bayesian information criterion, all causes alike beforehand.</remarks>
    public static DriftDiagnosis Of(StripFit strip)
    {
        var readings = 3 * strip.Patches;
        var noise = Math.Max(0.7, strip.Explain(Everything, 1).Left / (readings - DriftForm.Numbers));
        var nothing = strip.Nothing(noise);
        var tried = Known.Select(k => (k.Cause, Left: strip.Explain(k.Groups, 1).Left / noise, k.Groups.Length))
            .Select(t => (t.Cause, t.Left, Score: t.Left + (t.Length * 0.5 * Math.Log(readings)))).OrderBy(t => t.Score).ToArray();
        var best = tried[0];
        if (nothing - best.Left < MoreThanNoise)
        {
            return new(DriftCause.Nothing, 1, best.Cause, 0);
        }

        var chance = 1 / tried.Sum(t => Math.Exp(-0.5 * (t.Score - best.Score)));
        return new(best.Cause, chance, tried[1].Cause, 1 - (best.Left / nothing));
    }
}

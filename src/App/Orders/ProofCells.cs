using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;

namespace Goodsheet.App.Orders;

/// <summary>What is put beside one another on a sheet of proofs.</summary>
public enum ProofsOf
{
    /// <summary>The intents on one paper, with and without black-point compensation, and lighter and darker.</summary>
    Intents = 1,

    /// <summary>Other papers, shown on this one.</summary>
    Papers = 2,
}

/// <summary>The small prints of a sheet of proofs.</summary>
internal static class ProofCells
{
    private static readonly double[] Steps = [-6, -3, 3, 6]; // L* at mid grey: a third and two thirds of a stop, about

    /// <summary>One paper: how colours are brought onto it, and how light.</summary>
    public static IReadOnlyList<ProofCell> Intents() =>
    [
        new() { Label = "Relative black point on", Intent = RenderingIntent.RelativeColorimetric },
        new() { Label = "Relative black point off", Intent = RenderingIntent.RelativeColorimetric, BlackPointCompensation = false },
        new() { Label = "Perceptual", Intent = RenderingIntent.Perceptual },
        new() { Label = "Absolute", Intent = RenderingIntent.AbsoluteColorimetric },
        .. Steps.Select(step => new ProofCell { Label = $"Relative {(step < 0 ? "darker" : "lighter")} {Math.Abs(step):0}", Intent = RenderingIntent.RelativeColorimetric, Lighter = step }),
    ];

    /// <summary>This paper as it prints, and others as they would look beside it.</summary>
    /// <param name="paper">The name of the paper that the sheet is printed on.</param>
    /// <param name="others">The others, by name and profile.</param>
    /// <param name="intent">Of the print.</param>
    /// <param name="blackPointCompensation">Of the print.</param>
    public static IReadOnlyList<ProofCell> Papers(string paper, IReadOnlyList<(string Name, byte[] Profile)> others, RenderingIntent intent, bool blackPointCompensation) =>
    [
        new() { Label = $"{paper} as it is", Intent = intent, BlackPointCompensation = blackPointCompensation },
        .. others.Select(o => new ProofCell { Label = $"As on {o.Name}", Intent = intent, BlackPointCompensation = blackPointCompensation, As = o.Profile }),
    ];

    public static string Words(ProofsOf of) => of is ProofsOf.Papers ? "papers" : "intents";
}

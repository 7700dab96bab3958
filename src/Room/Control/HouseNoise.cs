namespace Goodsheet.Room.Control;

/// <summary>How much strips of one condition differ when nothing has happened: the floor under every control chart.</summary>
/// <remarks>
/// The centre of a strip is the mean of its patches' shifts. Its noise is one covariance, kept as the lower triangle L
/// with L Lᵀ = covariance, so that a shift is whitened by going down the triangle once.
/// </remarks>
public sealed record HouseNoise
{
    private HouseNoise(double ll, double la, double lb, double aa, double ab, double bb, LabShift patch)
    {
        (LL, LA, LB, AA, AB, BB, Patch) = (ll, la, lb, aa, ab, bb, patch);
        l11 = Root(ll);
        (l21, l31) = (la / l11, lb / l11);
        l22 = Root(aa - (l21 * l21));
        l32 = (ab - (l31 * l21)) / l22;
        l33 = Root(bb - (l31 * l31) - (l32 * l32));
    }

    private readonly double l11, l21, l22, l31, l32, l33;

    /// <summary>
    /// What a strip of 24 patches is held to until the room has strips of its own: standard deviations of L*, a*, b*.
    /// </summary>
    /// <remarks>
    /// From one matte paper printed and read on two days: the centres of 14 shared patches stood −.08, .00, −.15 apart,
    /// and the patches .14, .48, .31 about that; divided by √2, since a difference has the noise of two. The centre of
    /// one pair of days is one draw, so it is rounded up. Patches have the noise of a day's readings besides, .11 on
    /// each axis (.18 dE00 on average between two readings).
    /// </remarks>
    public static HouseNoise Usual { get; } = Of(new(0.10, 0.12, 0.15), new(0.15, 0.36, 0.25));

    public double LL { get; }

    public double LA { get; }

    public double LB { get; }

    public double AA { get; }

    public double AB { get; }

    public double BB { get; }

    /// <summary>Standard deviations of one patch about the centre of its strip.</summary>
    public LabShift Patch { get; }

    /// <summary>The size of one usual step in dE*ab: root of the mean of squares.</summary>
    public double Step => Math.Sqrt((LL + AA + BB) / 3);

    /// <summary>Axes that go their own ways.</summary>
    public static HouseNoise Of(LabShift centre, LabShift patch) =>
        new(centre.L * centre.L, 0, 0, centre.A * centre.A, 0, centre.B * centre.B, patch);

    /// <summary>Learns from strips at which nothing was found, leaning on what was held before.</summary>
    /// <param name="before">What is believed so far.</param>
    /// <param name="worth">How many strips that belief is worth; above 0.</param>
    /// <param name="centres">Shifts whose expected covariance is that of one strip.</param>
    /// <param name="shapes">What <see cref="StripShift.Shape"/> was of each, under the noise held before; none to keep the patches'.</param>
    public static HouseNoise Learn(
        HouseNoise before, double worth, IReadOnlyCollection<LabShift> centres, IReadOnlyCollection<double>? shapes = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(worth, 0);
        var n = worth + centres.Count;
        double Mean(double held, Func<LabShift, double> of) => ((held * worth) + centres.Sum(of)) / n;
        return new(
            Mean(before.LL, c => c.L * c.L), Mean(before.LA, c => c.L * c.A), Mean(before.LB, c => c.L * c.B),
            Mean(before.AA, c => c.A * c.A), Mean(before.AB, c => c.A * c.B), Mean(before.BB, c => c.B * c.B),
            shapes is null ? before.Patch : Math.Sqrt((worth + shapes.Sum(q => q * q)) / (worth + shapes.Count)) * before.Patch);
    }

    /// <summary>A shift in steps of the usual spread, the same in every direction.</summary>
    public LabShift Whiten(LabShift shift)
    {
        var l = shift.L / l11;
        var a = (shift.A - (l21 * l)) / l22;
        return new(l, a, (shift.B - (l31 * l) - (l32 * a)) / l33);
    }

    /// <summary>Back from steps to L*a*b*.</summary>
    public LabShift Colour(LabShift steps) => new(
        l11 * steps.L, (l21 * steps.L) + (l22 * steps.A), (l31 * steps.L) + (l32 * steps.A) + (l33 * steps.B));

    private static double Root(double variance) => variance > 1e-12 ? Math.Sqrt(variance)
        : throw new ArgumentOutOfRangeException(nameof(variance), "House noise must spread in every direction.");
}

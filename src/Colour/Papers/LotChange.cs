using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Papers;

/// <summary>Whether a profile made on one lot serves another.</summary>
public enum LotAnswer
{
    /// <summary>Paper and prints differ no more than readings of one lot do.</summary>
    Same = 1,

    /// <summary>It changed a little; the profile still holds.</summary>
    StillHolds = 2,

    /// <summary>It changed: a strip and, if that confirms it, another profile.</summary>
    Changed = 3,
}

/// <summary>What another lot of a paper changes.</summary>
/// <param name="White">Between the two bare papers.</param>
/// <param name="Foretold">What the change of white alone does to the prints, patch by patch: white and black carried over in
/// tristimulus values, what lies between scaled (the substrate correction of the trade, from memory).</param>
/// <param name="Measured">What the patches that both charts have show; none where they share none but the paper.</param>
public sealed record LotChange(DeltaE00 White, ErrorSummary Foretold, ErrorSummary? Measured)
{
    private const double SameUpTo = 0.5;  // mean dE00: one lot read twice stays under it. These two are ours; no source
    private const double HoldsUpTo = 1.2; // mean dE00: a profile made on one lot still serves the other

    /// <summary>How far prints moved on average: as measured where the charts share patches, else as foretold.</summary>
    public DeltaE00 Moved => (Measured ?? Foretold).Mean;

    /// <summary>What that means for the profile.</summary>
    public LotAnswer Answer => Math.Max(Moved.Value, White.Value) < SameUpTo ? LotAnswer.Same : Moved.Value < HoldsUpTo ? LotAnswer.StillHolds : LotAnswer.Changed;

    /// <summary>Compares two charts of one paper read in one M-condition.</summary>
    /// <param name="earlier">The lot that the profile was made on.</param>
    /// <param name="later">The new lot: as few patches as its bare paper.</param>
    /// <returns>Null where one has no patch of bare paper, or the M-conditions differ.</returns>
    public static LotChange? Between(MeasurementSet earlier, MeasurementSet later)
    {
        var (was, now) = (PaperReading.Of(earlier), PaperReading.Of(later));
        if (!was.WhiteIsBare || !now.WhiteIsBare || earlier.Condition != later.Condition)
        {
            return null;
        }

        var (from, to, black) = (was.White.Lab.ToXyz(Xyz.D50), now.White.Lab.ToXyz(Xyz.D50), was.Darkest.Lab.ToXyz(Xyz.D50));
        var foretold = earlier.Averaged().Select(p => CieDe2000.Between(p.Lab, Carried(p.Lab.ToXyz(Xyz.D50), from, to, black))).ToArray();
        var measured = later.Averaged().Length > 1 ? Repeatability.Between(earlier, later) : null;
        return new(CieDe2000.Between(was.White.Lab, now.White.Lab), ErrorSummary.Of(foretold), measured);
    }

    private static Lab Carried(Xyz colour, Xyz from, Xyz to, Xyz black)
    {
        static double One(double x, double w, double n, double k) => w > k ? k + ((x - k) * (n - k) / (w - k)) : x;
        return new Xyz(One(colour.X, from.X, to.X, black.X), One(colour.Y, from.Y, to.Y, black.Y), One(colour.Z, from.Z, to.Z, black.Z)).ToLab(Xyz.D50);
    }
}

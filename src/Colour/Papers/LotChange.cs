using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Papers;

/// <summary>What another lot of a paper changes.</summary>
/// <param name="White">Between the two bare papers.</param>
/// <param name="Foretold">What the change of white alone does to the prints, patch by patch: white and black carried over in
/// tristimulus values, what lies between scaled (the substrate correction of the trade, from memory).</param>
/// <param name="Measured">What the patches that both charts have show; none where they share none but the paper.</param>
public sealed record LotChange(DeltaE00 White, ErrorSummary Foretold, ErrorSummary? Measured)
{
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

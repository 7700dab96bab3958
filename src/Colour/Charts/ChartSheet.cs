namespace Goodsheet.Colour.Charts;

/// <summary>How an instrument reads a chart.</summary>
public enum ChartReadBy
{
    /// <summary>It is drawn along a strip of patches.</summary>
    Strip,

    /// <summary>It is set down on each patch.</summary>
    Patch,
}

/// <summary>A sheet of a chart: how large, and how its patches lie on it. Strips run along the width.</summary>
/// <param name="WidthMm">Of the paper, 50 to 1,500.</param>
/// <param name="HeightMm">Of the paper, 50 to 1,500.</param>
/// <param name="PatchAlongMm">A patch along its strip, 2 to 60.</param>
/// <param name="PatchAcrossMm">A patch across its strip, 2 to 60.</param>
/// <param name="GapMm">Bare paper between patches, both ways, 0 to 20.</param>
/// <param name="By">How it is read: a strip has bare paper at both ends, to set the instrument down on.</param>
/// <param name="Band">Whether it is no sheet but a band in the margin of a print: 8 mm high and more, without marks and letters.</param>
public sealed record ChartSheet(
    double WidthMm, double HeightMm, double PatchAlongMm, double PatchAcrossMm, double GapMm, ChartReadBy By, bool Band = false)
{
    /// <summary>What no printer of sheets prints on, and the marks in the corners: mm from each edge.</summary>
    public const double MarginMm = 12;

    /// <summary>For the sheet's name, above the lower margin.</summary>
    public const double NameMm = 8;

    private const double LabelMm = 7;
    private const double RunUpMm = 12;
    private const double BandEdgeMm = 1;
    private const double BandNameMm = 4;

    /// <summary>From the left edge to the first patch of each strip.</summary>
    public double LeftMm => (Band ? BandEdgeMm : MarginMm + LabelMm) + RunMm;

    /// <summary>From the upper edge to the first strip.</summary>
    public const double TopMm = MarginMm;

    /// <summary>From the upper edge to the first strip, of a sheet or a band.</summary>
    public double FirstStripMm => Band ? BandEdgeMm : TopMm;

    /// <summary>From the upper edge to the line with the name.</summary>
    public double NameAtMm => HeightMm - (Band ? BandNameMm - BandEdgeMm : MarginMm + NameMm - 3);

    /// <summary>Patches to a strip; 0 where none fits.</summary>
    public int PatchesInStrip => Fit(WidthMm - LeftMm - (Band ? BandEdgeMm : MarginMm) - RunMm, PatchAlongMm);

    /// <summary>Strips to a sheet; 0 where none fits.</summary>
    public int Strips => Fit(HeightMm - FirstStripMm - (Band ? BandNameMm : MarginMm + NameMm), PatchAcrossMm);

    /// <summary>Patches to a sheet.</summary>
    public int Patches => PatchesInStrip * Strips;

    /// <summary>Whether all sizes are within their ranges and a strip of four patches or more fits.</summary>
    public bool IsUsable =>
        WidthMm is >= 50 and <= 1500 && HeightMm <= 1500 && HeightMm >= (Band ? 8 : 50) && PatchAlongMm is >= 2 and <= 60 && PatchAcrossMm is >= 2 and <= 60
        && GapMm is >= 0 and <= 20 && PatchesInStrip >= 4 && Strips >= 1;

    private double RunMm => By is ChartReadBy.Strip ? RunUpMm : 0;

    private int Fit(double room, double patch) => (int)Math.Max(0, Math.Floor(((room + GapMm) / (patch + GapMm)) + 1e-9));
}

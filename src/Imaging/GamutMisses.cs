namespace Goodsheet.Imaging;

/// <summary>A small map of how far a print is from each colour asked for.</summary>
/// <param name="Width">In pixels of the map.</param>
/// <param name="Height">In pixels of the map.</param>
/// <param name="DeltaE00">Row by row; averaging to the map's size hides single pixels.</param>
public sealed record GamutMisses(int Width, int Height, IReadOnlyList<float> DeltaE00)
{
    /// <summary>The share of the picture whose colours are missed by more than 2 ΔE00.</summary>
    public double Share => (double)DeltaE00.Count(e => e > GamutTest.Held) / DeltaE00.Count;

    /// <summary>The mean ΔE00 over what is not held; 0 where all is held.</summary>
    public double MeanOutside => DeltaE00.Where(e => e > GamutTest.Held).DefaultIfEmpty().Average();

    /// <summary>The largest ΔE00 in the map.</summary>
    public double Largest => DeltaE00.Max();
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Density;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Control;

/// <summary>Whether the black of a strip is another black than its reference chart was printed with.</summary>
/// <param name="Then">Visual density of the black patch in the reference chart.</param>
/// <param name="Now">The same in the strip.</param>
/// <param name="Wrong">Black alone is far off, while the other inks stand: another black ink, or the other side of the paper.</param>
/// <remarks>
/// A photo black on a dull coat loses some .2 to .4 of density, a matte black on a shiny one more (common practice, no
/// source). A drift of all inks by a tenth moves the solids as much as the black, and is not taken for it.
/// </remarks>
public sealed record BlackCheck(double Then, double Now, bool Wrong)
{
    private const double Far = 0.15; // of density
    private const double BesideOthers = 2; // black must move so much more than the colour solid that moved most

    /// <summary>Compares the black and the three colour solids.</summary>
    /// <returns>Null where either lacks one of the four.</returns>
    public static BlackCheck? Of(MeasurementSet reference, MeasurementSet strip)
    {
        if (reference.Space != strip.Space || reference.Space is not (DeviceSpace.Rgb or DeviceSpace.Cmyk))
        {
            return null;
        }

        double[][] solids = reference.Space is DeviceSpace.Rgb ? [[0, 0, 0], [0, 1, 1], [1, 0, 1], [1, 1, 0]]
            : [[0, 0, 0, 1], [1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0]];
        var (then, now) = (Find(reference, solids), Find(strip, solids));
        if (then is null || now is null)
        {
            return null;
        }

        var moved = then.Zip(now, Away).ToArray();
        var (was, black) = (Densities.FromLab(then[0]), Densities.FromLab(now[0]));
        return new(was, black, Math.Abs(was - black) > Far && moved[0] > BesideOthers * moved[1..].Max());
    }

    private static Lab[]? Find(MeasurementSet set, double[][] wanted)
    {
        var known = set.Averaged();
        var found = wanted.Select(w => known.FirstOrDefault(p => p.Device.SequenceEqual(w))).ToArray();
        return found.Any(p => p is null) ? null : [.. found.Select(p => p!.Lab)];
    }

    private static double Away(Lab a, Lab b) => Math.Sqrt(Math.Pow(a.L - b.L, 2) + Math.Pow(a.A - b.A, 2) + Math.Pow(a.B - b.B, 2));
}

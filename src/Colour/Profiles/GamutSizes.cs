using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Profiles;

/// <summary>Measures the gamut of a printer of three channels, and how sure the measure is.</summary>
internal static class GamutSizes
{
    private const double Step = 1e-3; // of a channel, for slopes

    // How far patches on the surface may be off before they say nothing of it: misread, not farther out.
    private const double Believable = 8;

    /// <param name="printer">As the profile has it.</param>
    /// <param name="patches">Measured patches with what was foretold of them without having seen them, as far as known.</param>
    public static GamutSize Of(IPrinterModel printer, IEnumerable<PatchError> patches)
    {
        var solid = GamutSolid.Of(printer);
        var coarse = GamutSolid.Of(printer, 17);
        var mesh = Math.Abs(solid.Volume - coarse.Volume) / 3; // an error that goes with the square of the mesh
        var volume = solid.Volume + ((solid.Volume - coarse.Volume) / 3);
        var outwards = patches.Where(p => p.Device.Any(d => d is 0 or 1)).Select(p => Outwards(printer, p)).Where(d => Math.Abs(d) < Believable).ToArray();
        if (outwards.Length < 8)
        {
            return new(volume, mesh);
        }

        var mean = outwards.Average();
        var error = Math.Sqrt(outwards.Sum(d => (d - mean) * (d - mean)) / (outwards.Length - 1) / outwards.Length);
        return new(volume, mesh + (solid.Area * (Math.Abs(mean) + (2 * error))));
    }

    // How far a patch on the surface was measured outside of what is foretold, along the surface's own direction.
    private static double Outwards(IPrinterModel printer, PatchError patch)
    {
        var axis = Enumerable.Range(0, 3).First(i => patch.Device[i] is 0 or 1);
        var (u, v, w) = (Slope(printer, patch, (axis + 1) % 3), Slope(printer, patch, (axis + 2) % 3), Slope(printer, patch, axis));
        var (x, y, z) = ((u.A * v.B) - (u.B * v.A), (u.B * v.L) - (u.L * v.B), (u.L * v.A) - (u.A * v.L));
        var length = Math.Sqrt((x * x) + (y * y) + (z * z));
        // Out is where the channel would go beyond its end.
        var side = Math.Sign((x * w.L) + (y * w.A) + (z * w.B)) * (patch.Device[axis] > 0 ? 1 : -1);
        var (l, a, b) = (patch.Measured.L - patch.Foretold.L, patch.Measured.A - patch.Foretold.A, patch.Measured.B - patch.Foretold.B);
        return length > 0 ? side * ((x * l) + (y * a) + (z * b)) / length : 0;
    }

    private static Lab Slope(IPrinterModel printer, PatchError patch, int channel)
    {
        double[] pair = [.. patch.Device, .. patch.Device];
        var step = pair[channel] > 0.5 ? -Step : Step;
        pair[3 + channel] += step;
        var lab = new double[6];
        printer.Predict(pair, lab);
        return new((lab[3] - lab[0]) / step, (lab[4] - lab[1]) / step, (lab[5] - lab[2]) / step);
    }
}

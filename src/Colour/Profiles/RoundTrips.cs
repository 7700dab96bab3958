using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>Device to colour to device to colour through a profile's relative tables: what the tables themselves cost.</summary>
internal sealed class RoundTrips
{
    private const int Trips = 2_000;
    private const int NeutralTrips = 100;
    private const double FromEdge = 0.04;

    // Ink beyond what presses take is no round trip that anyone asks for.
    private const double InkPart = 0.75;

    // Nearer to black a printer has no neutral, only its own hue: L*.
    private const double AboveBlack = 4;

    private readonly ColourTransform to;
    private readonly ColourTransform from;

    public RoundTrips(IccProfile profile)
    {
        to = ColourTransform.ToLab(profile, RenderingIntent.RelativeColorimetric);
        from = ColourTransform.FromLab(profile, RenderingIntent.RelativeColorimetric);
    }

    /// <summary>Colours well inside the cube of device values.</summary>
    public ErrorSummary Interior() => Of(Devices(surface: false));

    /// <summary>Colours with one channel full or empty: the surface of the gamut, for three channels.</summary>
    public ErrorSummary Surface() => Of(Devices(surface: true));

    /// <summary>Neutral colours, from a little above black.</summary>
    public ErrorSummary Neutral()
    {
        var black = from.Outputs == 4 ? 0.0 : Colour(new double[to.Inputs]).L;
        var device = new double[from.Outputs];
        from.Apply([0, 0, 0], device);
        var lowest = Math.Min(90, Math.Max(black, Colour(device).L) + AboveBlack);
        return ErrorSummary.Of(Enumerable.Range(0, NeutralTrips)
            .Select(i => Trip(new(lowest + ((100 - lowest) * i / (NeutralTrips - 1)), 0, 0))));
    }

    private ErrorSummary Of(IEnumerable<double[]> devices) => ErrorSummary.Of(devices.Select(d => Trip(Colour(d))));

    private IEnumerable<double[]> Devices(bool surface)
    {
        var random = new Random(Seed: 1);
        var n = to.Inputs;
        for (var i = 0; i < Trips; i++)
        {
            var device = Enumerable.Range(0, n)
                .Select(_ => (FromEdge + ((1 - (2 * FromEdge)) * random.NextDouble())) * (n == 4 ? InkPart : 1)).ToArray();
            if (surface)
            {
                device[i % Math.Min(3, n)] = i / 3 % 2;
                device[^1] = n == 4 ? 0 : device[^1];
            }

            yield return device;
        }
    }

    private DeltaE00 Trip(Lab colour)
    {
        var device = new double[from.Outputs];
        from.Apply([colour.L, colour.A, colour.B], device);
        return CieDe2000.Between(colour, Colour(device));
    }

    private Lab Colour(double[] device)
    {
        Span<double> lab = stackalloc double[3];
        to.Apply(device, lab);
        return new(lab[0], lab[1], lab[2]);
    }
}

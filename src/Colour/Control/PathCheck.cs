using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Control;

/// <summary>Whether a strip came to the paper as it was sent, or was converted once more on the way.</summary>
/// <param name="Straight">Mean distance from what the chart reads for the numbers sent, dE00.</param>
/// <param name="Twice">The same from what they give when converted once more, by the likeliest such conversion, dE00.</param>
/// <param name="Assumed">The colour space that conversion took the numbers for, in words.</param>
/// <remarks>
/// A driver or a system left to manage colours takes printer numbers for those of a screen and converts them with its own
/// idea of the paper; the room's own profile stands for that idea. Method of our own, no source.
/// </remarks>
public sealed record PathCheck(double Straight, double Twice, string Assumed)
{
    private const double Far = 3; // dE00: nothing that drifts moves so far on average
    private const double Better = 0.5; // twice must explain the strip this much better than straight

    /// <summary>The strip was converted once more on the way.</summary>
    public bool ConvertedTwice => Straight > Far && Twice < Better * Straight;

    /// <summary>Holds a strip of RGB numbers against both stories.</summary>
    /// <param name="profile">Of the printing condition.</param>
    /// <param name="reference">The chart's readings.</param>
    /// <param name="strip">Read now.</param>
    /// <returns>Null where the profile has no ways both to and from RGB, or no patch is shared.</returns>
    public static PathCheck? Of(IccProfile profile, MeasurementSet reference, MeasurementSet strip)
    {
        ArgumentNullException.ThrowIfNull(profile);
        if (profile.Header.Space is not ColourSpace.Rgb || strip.Space is not DeviceSpace.Rgb || reference.Space is not DeviceSpace.Rgb)
        {
            return null;
        }

        var known = reference.Averaged().ToDictionary(p => string.Join(' ', p.Device), p => p.Lab);
        var shared = strip.Averaged().Where(p => known.ContainsKey(string.Join(' ', p.Device))).ToArray();
        if (shared.Length == 0 || profile.ToPcs(RenderingIntent.AbsoluteColorimetric) is null)
        {
            return null;
        }

        var straight = shared.Average(p => CieDe2000.Between(known[string.Join(' ', p.Device)], p.Lab).Value);
        var look = ColourTransform.ToLab(profile, RenderingIntent.AbsoluteColorimetric);
        double[] sent = [.. shared.SelectMany(p => p.Device)];
        var best = (Mean: double.MaxValue, Assumed: "");
        foreach (var (name, file) in ((string, byte[])[])[("sRGB", BuiltInProfiles.SRgb()), ("a wide RGB", BuiltInProfiles.WideRgb())])
        {
            var source = IccProfile.Read(file).Profile!;
            foreach (var intent in (RenderingIntent[])[RenderingIntent.RelativeColorimetric, RenderingIntent.Perceptual])
            {
                if (profile.FromPcs(intent) is null)
                {
                    continue;
                }

                var (again, seen) = (new double[sent.Length], new double[sent.Length]);
                ColourTransform.Create(source, profile, intent, blackPointCompensation: true).Apply(sent, again);
                look.Apply(again, seen);
                var mean = shared.Select((p, i) => CieDe2000.Between(new(seen[3 * i], seen[(3 * i) + 1], seen[(3 * i) + 2]), p.Lab).Value).Average();
                best = mean < best.Mean ? (mean, name) : best;
            }
        }

        return best.Assumed.Length == 0 ? null : new(straight, best.Mean, best.Assumed);
    }
}

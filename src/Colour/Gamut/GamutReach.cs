using System.Collections.Immutable;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;

namespace Goodsheet.Colour.Gamut;

/// <summary>How far from grey a gamut reaches, at each lightness and hue: where it is large and where it is small.</summary>
/// <param name="Chroma">C*ab, a row for each of <see cref="Lightnesses"/>, in it one for each of <see cref="Hues"/>; 0 where the
/// lightness is not reached at all.</param>
/// <remarks>Seen from the grey axis outwards; where the surface folds back the farthest is taken.</remarks>
public sealed record GamutReach(ImmutableArray<ImmutableArray<double>> Chroma)
{
    private const int HueStep = 10;
    private const int LightnessStep = 5;
    private const double OnRay = 1e-6; // of a* and b*

    /// <summary>L* of the rows: 5 to 95 by 5.</summary>
    public static ImmutableArray<double> Lightnesses { get; } = [.. Enumerable.Range(1, 19).Select(i => (double)LightnessStep * i)];

    /// <summary>h_ab of the columns, degrees: 0 to 350 by 10.</summary>
    public static ImmutableArray<double> Hues { get; } = [.. Enumerable.Range(0, 360 / HueStep).Select(i => (double)HueStep * i)];

    /// <summary>Measures a solid.</summary>
    public static GamutReach Of(GamutSolid solid) => new([.. Lightnesses.Select(l =>
    {
        var pieces = solid.Slice(l);
        return Hues.Select(h => pieces.Max(p => (double?)Along(p.From, p.To, h * Math.PI / 180)) ?? 0).ToImmutableArray();
    })]);

    /// <summary>The volume of a part of the gamut, in cubic units of L*a*b*.</summary>
    /// <param name="fromHue">Degrees.</param>
    /// <param name="toHue">Degrees, more than <paramref name="fromHue"/>; may pass 360.</param>
    /// <param name="fromLightness">L*.</param>
    /// <param name="toLightness">L*.</param>
    public double VolumeOf(double fromHue, double toHue, double fromLightness = 0, double toLightness = 100)
    {
        var sum = 0.0;
        for (var i = 0; i < Lightnesses.Length; i++)
        {
            if (Lightnesses[i] >= fromLightness && Lightnesses[i] < toLightness)
            {
                for (var j = 0; j < Hues.Length; j++)
                {
                    sum += (((Hues[j] - fromHue) % 360) + 360) % 360 < toHue - fromHue ? Chroma[i][j] * Chroma[i][j] : 0;
                }
            }
        }

        return sum * LightnessStep * (HueStep * Math.PI / 180) / 2;
    }

    /// <summary>The part of this gamut's volume that none of the others reaches, 0 to 1.</summary>
    public double BeyondAll(IReadOnlyCollection<GamutReach> others)
    {
        var (all, beyond) = (0.0, 0.0);
        for (var i = 0; i < Lightnesses.Length; i++)
        {
            for (var j = 0; j < Hues.Length; j++)
            {
                var (own, reached) = (Chroma[i][j], others.Select(o => o.Chroma[i][j]).DefaultIfEmpty(0).Max());
                all += own * own;
                beyond += Math.Max(0, (own * own) - (reached * reached));
            }
        }

        return all > 0 ? beyond / all : 0;
    }

    /// <summary>What of this gamut another loses: over its surface, how far the nearest colour of the same hue lies there.</summary>
    /// <returns>The mean and the largest difference, and the share of the surface that is off by more than 2.</returns>
    public (DeltaE00 Mean, DeltaE00 Largest, double Share) LostOn(GamutReach other)
    {
        List<double> lost = [];
        for (var i = 0; i < Lightnesses.Length; i++)
        {
            for (var j = 0; j < Hues.Length; j++)
            {
                if (Chroma[i][j] > 0)
                {
                    lost.Add(other.Nearest(Colour(Lightnesses[i], Chroma[i][j], Hues[j]), j));
                }
            }
        }

        return lost.Count == 0 ? (new(0), new(0), 0) : (new(lost.Average()), new(lost.Max()), (double)lost.Count(d => d > 2) / lost.Count);
    }

    private double Nearest(Lab wanted, int hue)
    {
        var nearest = double.MaxValue;
        for (var i = 0; i < Lightnesses.Length; i++)
        {
            if (Chroma[i][hue] > 0 && Math.Abs(Lightnesses[i] - wanted.L) < 40)
            {
                var held = Colour(Lightnesses[i], Math.Min(wanted.Chroma, Chroma[i][hue]), Hues[hue]);
                nearest = Math.Min(nearest, CieDe2000.Between(wanted, held).Value);
            }
        }

        return nearest == double.MaxValue ? 100 : nearest;
    }

    private static Lab Colour(double lightness, double chroma, double hue) =>
        new(lightness, chroma * Math.Cos(hue * Math.PI / 180), chroma * Math.Sin(hue * Math.PI / 180));

    // Where the ray of a hue from grey crosses a piece of outline; 0 where it does not.
    private static double Along((double A, double B) from, (double A, double B) to, double hue)
    {
        var (x, y) = (Math.Cos(hue), Math.Sin(hue));
        var (f, t) = ((x * from.B) - (y * from.A), (x * to.B) - (y * to.A)); // how far to the side of the ray
        if ((f > OnRay && t > OnRay) || (f < -OnRay && t < -OnRay))
        {
            return 0;
        }

        // A ray through a corner crosses both pieces that meet there, or by rounding neither: so much beside counts as on it.
        var part = Math.Abs(f - t) < OnRay ? 0 : Math.Clamp(f / (f - t), 0, 1);
        var (a, b) = (from.A + (part * (to.A - from.A)), from.B + (part * (to.B - from.B)));
        return Math.Max(0, (x * a) + (y * b));
    }
}

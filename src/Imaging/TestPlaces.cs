using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Imaging;

/// <summary>What a place of a picture has most of.</summary>
public enum PlaceOf
{
    Most = 1,
    NotHeld = 2,
    Shadows = 3,
    Skin = 4,
    Detail = 5,
}

/// <summary>A place that is worth printing first.</summary>
/// <param name="Of">What it has most of.</param>
/// <param name="X">Its left edge, as a share of the print's width.</param>
/// <param name="Y">Its upper edge, as a share of the print's height.</param>
/// <param name="Share">How much of the place has it, 0 to 1.</param>
public sealed record TestPlace(PlaceOf Of, double X, double Y, double Share);

/// <summary>Where a test strip tells most of a print: colours the paper does not hold, drawing in the shadows, skin, fine detail.</summary>
/// <remarks>Common practice, no source: what shadows, skin and detail are is set by eye, in L*a*b* relative to the paper.</remarks>
public static class TestPlaces
{
    private const int Side = 320;
    private const double Dark = 30;           // L*
    private const double ShadowStep = 0.5;    // dL* from pixel to pixel: drawing, not an even black
    private const double FineStep = 4;        // dL*
    private const double LeastShare = 0.02;   // of the place: less is not worth naming
    private static readonly (double Of, double To) SkinHue = (25, 75); // degrees
    private static readonly (double Of, double To) SkinChroma = (10, 45);
    private static readonly (double Of, double To) SkinLight = (25, 88);

    private static readonly (PlaceOf Of, double Weight)[] Kinds = [(PlaceOf.NotHeld, 1), (PlaceOf.Shadows, 1), (PlaceOf.Skin, 1), (PlaceOf.Detail, 0.5)];

    /// <summary>Proposes places, the one that has most of everything first.</summary>
    /// <param name="path">The picture's file, or a copy of it for the screen.</param>
    /// <param name="printer">The profile it is to be printed with.</param>
    /// <param name="blackPointCompensation">Whether the print is made with it.</param>
    /// <param name="shape">Width by height of the print.</param>
    /// <param name="part">Width and height of the strip, as shares of the print's, above 0 to 1.</param>
    public static PictureResult<IReadOnlyList<TestPlace>> Find(string path, IccProfile printer, bool blackPointCompensation, double shape, (double Width, double Height) part)
    {
        ArgumentNullException.ThrowIfNull(printer);
        return PictureSource.Look<IReadOnlyList<TestPlace>>(path, from =>
        {
            var small = SmallPicture.Read(path, Side, shape);
            var colours = Look(small, new(from, printer, blackPointCompensation));
            var window = (Width: Math.Clamp((int)Math.Round(small.Width * part.Width), 1, small.Width), Height: Math.Clamp((int)Math.Round(small.Height * part.Height), 1, small.Height));
            return Best(small, colours, window);
        });
    }

    private static (Lab Asked, double Missed)[] Look(SmallPicture small, GamutTest test)
    {
        var colours = new (Lab, double)[small.Width * small.Height];
        Parallel.For(0, small.Height, y =>
        {
            Span<double> pixel = stackalloc double[4];
            for (var i = y * small.Width; i < (y + 1) * small.Width; i++)
            {
                small.Pixel(i, pixel);
                var (asked, missed) = test.Of(pixel[..small.Channels]);
                colours[i] = (asked, missed.Value);
            }
        });
        return colours;
    }

    private static List<TestPlace> Best(SmallPicture small, (Lab Asked, double Missed)[] colours, (int Width, int Height) window)
    {
        var (width, height) = (small.Width, small.Height);
        var places = new List<TestPlace>();
        var all = new double[width * height];
        foreach (var (of, weight) in Kinds)
        {
            var has = new double[width * height];
            for (var i = 0; i < has.Length; i++)
            {
                has[i] = Has(of, colours, i, width) ? 1 : 0;
            }

            var (at, share) = BestWindow(has, width, height, window);
            if (share >= LeastShare)
            {
                places.Add(new(of, (double)(at % width) / width, (double)(at / width) / height, share));
                for (var i = 0; i < all.Length; i++)
                {
                    all[i] += has[i] * weight / share; // each kind counts against its own best
                }
            }
        }

        var (most, _) = BestWindow(all, width, height, window);
        var together = all.Max() > 0 ? most : (((height - window.Height) / 2) * width) + ((width - window.Width) / 2);
        places.Insert(0, new(PlaceOf.Most, (double)(together % width) / width, (double)(together / width) / height, 1));
        return places;
    }

    private static bool Has(PlaceOf of, (Lab Asked, double Missed)[] colours, int i, int width)
    {
        var (lab, missed) = colours[i];
        var step = Math.Max(
            i % width == 0 ? 0 : Math.Abs(lab.L - colours[i - 1].Asked.L), i < width ? 0 : Math.Abs(lab.L - colours[i - width].Asked.L));
        return of switch
        {
            PlaceOf.NotHeld => missed > GamutTest.Held,
            PlaceOf.Shadows => lab.L < Dark && step > ShadowStep,
            PlaceOf.Skin => IsSkin(lab),
            _ => step > FineStep,
        };
    }

    private static bool IsSkin(Lab lab)
    {
        var (chroma, hue) = (double.Hypot(lab.A, lab.B), Math.Atan2(lab.B, lab.A) * 180 / Math.PI);
        return hue > SkinHue.Of && hue < SkinHue.To && chroma > SkinChroma.Of && chroma < SkinChroma.To && lab.L > SkinLight.Of && lab.L < SkinLight.To;
    }

    // By sums over everything above and to the left: each window is four of them. Of equals the middlemost, since edges are cut off first.
    private static (int At, double Mean) BestWindow(double[] has, int width, int height, (int Width, int Height) window)
    {
        var sums = new double[(width + 1) * (height + 1)];
        for (var y = 0; y < height; y++)
        {
            var row = 0.0;
            for (var x = 0; x < width; x++)
            {
                row += has[(y * width) + x];
                sums[((y + 1) * (width + 1)) + x + 1] = sums[(y * (width + 1)) + x + 1] + row;
            }
        }

        var (best, at, far) = (-1.0, 0, double.MaxValue);
        for (var y = 0; y + window.Height <= height; y++)
        {
            for (var x = 0; x + window.Width <= width; x++)
            {
                double Sum(int dx, int dy) => sums[((y + dy) * (width + 1)) + x + dx];
                var sum = Sum(window.Width, window.Height) - Sum(0, window.Height) - Sum(window.Width, 0) + Sum(0, 0);
                var off = double.Hypot(x - ((width - window.Width) / 2.0), y - ((height - window.Height) / 2.0));
                if (sum > best + 1e-9 || (sum > best - 1e-9 && off < far))
                {
                    (best, at, far) = (sum, (y * width) + x, off);
                }
            }
        }

        return (at, best / (window.Width * (double)window.Height));
    }
}

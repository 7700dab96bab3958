using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests.Icc;

/// <summary>Our engine beside Little CMS 2 over profiles of every kind that we write, all intents.</summary>
public class AgainstLcmsTest
{
    // That engine rounds to 16 bits at each curve and at each table; ours does not.
    private const double RoundedTo16BitsOnTheWay = 1e-4;
    private const double SeenAsTheSame = 0.02; // in L*, a* and b*: a few codes of 16 bits, far below what is seen

    // That engine leaves a conversion of XYZ out whose matrix and offset differ from doing nothing by less than this,
    // all together (its IsEmptyLayer, from memory): a black nearer than about 0.4 L* is not compensated there. Ours is.
    private const double LeavesOutUnder = 0.002;
    private const double MostEncodableXyz = 1 + (32767.0 / 32768);

    // It rounds linear light to 16 bits before a sampled curve, where ours does not. On the straight toe of sRGB one code of
    // each channel moves a* by 500 x 7.787 / 65535 x |X/Xw - Y| of that primary: .0137 + .0189 + .0052.
    private const double LinearLightIn16Bits = 0.038;
    private const int Colours = 500;

    public static readonly string[] Printers = ["grey v2", "grey v4", "rgb v2", "rgb v4", "cmyk v2", "cmyk v4"];
    public static readonly string[] Spaces = ["sRGB v2", "sRGB v4", "wide v2", "wide v4", "grey space v2", "grey space v4", "sGrey"];

    private static readonly Dictionary<string, byte[]> Made = Make();

    public static TheoryData<string, string, RenderingIntent, bool> Pairs()
    {
        var pairs = new TheoryData<string, string, RenderingIntent, bool>();
        foreach (var from in Printers.Concat(Spaces))
        {
            foreach (var to in Printers.Concat(Spaces))
            {
                foreach (var intent in Enum.GetValues<RenderingIntent>())
                {
                    pairs.Add(from, to, intent, false);
                    pairs.Add(from, to, intent, true);
                }
            }
        }

        return pairs;
    }

    [Theory]
    [MemberData(nameof(Pairs), DisableDiscoveryEnumeration = true)]
    public void Gives_what_the_reference_engine_gives(string from, string to, RenderingIntent intent, bool compensate)
    {
        var (source, destination) = (Made[from], Made[to]);
        var compensated = compensate && !LeavesOut(BlackPoint.OfSource(Read(source), intent), BlackPoint.OfDestination(Read(destination), intent));
        var transform = ColourTransform.Create(Read(source), Read(destination), intent, compensated);
        var colours = Random(transform.Inputs * Colours);
        var ours = new double[transform.Outputs * Colours];
        transform.Apply(colours, ours);
        var theirs = Lcms.Convert(colours, source, destination, intent, compensate);

        // Near black a curve read backwards is steep, and one code more or less is seen: there the colour decides.
        var seen = ColourTransform.ToLab(Read(destination), RenderingIntent.RelativeColorimetric);
        var clipped = theirs.Select(y => Math.Clamp(y, 0, 1)).ToArray();
        var worst = ours.Zip(clipped, (x, y) => Math.Abs(x - y)).Max();
        Span<double> x = stackalloc double[3 * Colours];
        Span<double> y = stackalloc double[3 * Colours];
        seen.Apply(ours, x);
        seen.Apply(clipped, y);
        var farthest = 0.0;
        for (var i = 0; i < x.Length; i++)
        {
            farthest = Math.Max(farthest, Math.Abs(x[i] - y[i]));
        }

        Assert.True(worst <= RoundedTo16BitsOnTheWay || farthest <= (to == "sRGB v2" ? LinearLightIn16Bits : SeenAsTheSame), $"{worst:e2} apart, {farthest:e2} in Lab");
    }

    [Fact]
    public void Compensates_blacks_that_the_reference_engine_takes_for_the_same()
    {
        var (from, to) = (Read(Made["cmyk v2"]), Read(Made["rgb v2"]));
        var (black, paper) = (BlackPoint.OfSource(from, RenderingIntent.RelativeColorimetric), BlackPoint.OfDestination(to, RenderingIntent.RelativeColorimetric));
        Assert.True(LeavesOut(black, paper));
        Assert.NotEqual(black, paper);
        Span<double> moved = stackalloc double[3];
        BlackPoint.Compensation(black, paper)!.Apply([black.X, black.Y, black.Z], moved);
        Assert.Equal(paper.Y, moved[1], 1e-9);
    }

    private static bool LeavesOut(XyzNumber from, XyzNumber to)
    {
        if (BlackPoint.Compensation(from, to) is not { } m)
        {
            return false;
        }

        Span<double> offset = stackalloc double[3];
        m.Apply([0, 0, 0], offset);
        var moves = Enumerable.Range(0, 3).Sum(i => Math.Abs(m[i, i] - 1));
        return moves + ((Math.Abs(offset[0]) + Math.Abs(offset[1]) + Math.Abs(offset[2])) / MostEncodableXyz) < LeavesOutUnder;
    }

    public static TheoryData<string, RenderingIntent> Blacks()
    {
        var all = new TheoryData<string, RenderingIntent>();
        foreach (var name in Printers.Concat(Spaces))
        {
            foreach (var intent in Enum.GetValues<RenderingIntent>())
            {
                all.Add(name, intent);
            }
        }

        return all;
    }

    [Theory]
    [MemberData(nameof(Blacks), DisableDiscoveryEnumeration = true)]
    public void Finds_the_black_that_the_reference_engine_finds(string name, RenderingIntent intent)
    {
        var profile = Read(Made[name]);
        var (source, destination) = Lcms.BlackPoints(Made[name], intent);
        var (ours, oursTo) = (BlackPoint.OfSource(profile, intent).Y, BlackPoint.OfDestination(profile, intent).Y);
        Assert.True(
            Math.Abs(ours - source.Y) <= RoundedTo16BitsOnTheWay && Math.Abs(oursTo - destination.Y) <= RoundedTo16BitsOnTheWay,
            $"from {ours:f6}, theirs {source.Y:f6}; to {oursTo:f6}, theirs {destination.Y:f6}");
    }

    internal static IccProfile Read(byte[] bytes)
    {
        var reading = IccProfile.Read(bytes);
        Assert.True(reading.Sound, reading.Fault?.Message);
        return reading.Profile;
    }

    private static double[] Random(int count)
    {
        var random = new Random(20260314);
        return [.. Enumerable.Range(0, count).Select(i => i < 40 ? i / 20 : random.NextDouble())];
    }

    private static Dictionary<string, byte[]> Make()
    {
        Dictionary<string, byte[]> made = [];
        foreach (var version in Enum.GetValues<IccVersion>())
        {
            var v = version == IccVersion.V2 ? "v2" : "v4";
            made[$"grey {v}"] = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Grey, gridToPcs: 33), version);
            made[$"rgb {v}"] = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb), version);
            made[$"cmyk {v}"] = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Cmyk, gridToPcs: 5), version);
            made[$"sRGB {v}"] = BuiltInProfiles.SRgb(version);
            made[$"wide {v}"] = BuiltInProfiles.WideRgb(version);
            made[$"grey space {v}"] = BuiltInProfiles.Grey(version);
        }

        made["sGrey"] = Published.Bytes("sGrey-v4.icc");
        return made;
    }
}

using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests.Icc;

/// <summary>Our engine beside Little CMS 2 over profiles of every kind that we write, all intents.</summary>
public class AgainstLcmsTest
{
    // That engine rounds to 16 bits at each curve and at each table; ours does not.
    private const double RoundedTo16BitsOnTheWay = 1e-4;
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
        var transform = ColourTransform.Create(Read(source), Read(destination), intent, compensate);
        var colours = Random(transform.Inputs * Colours);
        var ours = new double[transform.Outputs * Colours];
        transform.Apply(colours, ours);
        var theirs = Lcms.Convert(colours, source, destination, intent, compensate);

        var worst = ours.Zip(theirs, (x, y) => Math.Abs(x - Math.Clamp(y, 0, 1))).Max();
        Assert.True(worst <= RoundedTo16BitsOnTheWay, $"{worst:e2} apart");
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

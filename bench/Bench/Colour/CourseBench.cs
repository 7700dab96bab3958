using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Bench.Colour;

/// <summary>Real charts as they are and with a fault planted along their order; and what they become under other lights.</summary>
internal static class CourseBench
{
    private const string Folder = "../shared/data/measurements/rgb-inkjet";

    public static int Run(string[] args)
    {
        var folder = args is [var given, ..] ? given : Folder;
        if (!Directory.Exists(folder))
        {
            Console.WriteLine($"{folder} is not here: nothing measured.");
            return 0;
        }

        MeasurementSet Read(string file) => MeasurementFile.Read(File.ReadAllBytes($"{folder}/{file}.txt")).Set!;
        foreach (var name in (string[])["glossy_680_6mm", "matte_C1_1019", "matte_A_2420"])
        {
            var set = Read($"{name}_M0");
            var n = set.Patches.Length;
            Show($"{name} as it is", set);
            Show("  drifting by 1.5 L*", With(set, (p, i) => p with { Lab = p.Lab with { L = p.Lab.L + (1.5 * i / n) } }));
            Show("  of another chart", With(set, (p, i) => p with { Lab = set.Patches[((i * 7) + 3) % n].Lab }));
            Light(set, Read($"{name}_M2"));
        }

        return 0;
    }

    private static MeasurementSet With(MeasurementSet set, Func<Patch, int, Patch> change) => set with { Patches = [.. set.Patches.Select((p, i) => change(p, i) with { Spectrum = null })] };

    private static void Show(string what, MeasurementSet set) =>
        Console.WriteLine($"{what}: {(ReadingCourse.Find(set) is { } f ? $"{f.Fault} from patch {f.From}, {f.Size.Value:0.0} dE00" : "nothing found")}");

    private static void Light(MeasurementSet with, MeasurementSet without)
    {
        foreach (var (light, set) in ((ViewingLight, MeasurementSet)[])[(ViewingLight.WarmLamp, with), (ViewingLight.UvFreeGlass, without)])
        {
            var seen = set.Under(light);
            var apart = ErrorSummary.Of(seen.Averaged().Zip(with.Averaged(), (a, b) => CieDe2000.Between(a.Lab, b.Lab)));
            var white = PaperReading.Of(seen).White.Lab;
            Console.WriteLine($"  {light}: white {white.L:0.0} {white.A:0.0} {white.B:0.0}; patches move by {apart.Mean.Value:0.00} / {apart.P95.Value:0.00} / {apart.Largest.Value:0.0}");
        }
    }
}

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

    /// <summary>Real charts with a channel planted dead in a seeded part: which is found, where, and that nothing is found without.</summary>
    public static int RunNozzles(string[] args)
    {
        var folder = args is [var given, ..] ? given : Folder;
        if (!Directory.Exists(folder))
        {
            Console.WriteLine($"{folder} is not here: nothing measured.");
            return 0;
        }

        var (planted, right, near, order, alarms, clean) = (0, 0, 0, 0, 0, 0);
        foreach (var name in (string[])["glossy_680_6mm_M0", "matte_C1_1019_M0", "matte_A_2420_M0", "glossy_680_6mm_M2", "matte_C1_1019_M2", "matte_A_2420_M2"])
        {
            var read = MeasurementFile.Read(File.ReadAllBytes($"{folder}/{name}.txt")).Set!;
            var set = With(read, (p, _) => p); // as colours alone: a planted patch has no spectrum
            var said = ReadingCourse.Find(set);
            (clean, alarms) = (clean + 1, alarms + (said is null ? 0 : 1));
            Console.WriteLine($"{name}, {set.Patches.Length} patches, as it is: {(said is null ? "nothing found" : Told(said))}");
            if (name.EndsWith("M2", StringComparison.Ordinal))
            {
                continue; // the same prints under another light: looked at for false alarms only
            }

            var model = PrinterModels.Fit([set]);
            var random = new Random(name.Length); // seeded: the parts are the same in every run
            foreach (var share in (double[])[0.04, 0.2, 0.5, 0.8])
            {
                for (var channel = 0; channel < 3; channel++)
                {
                    var n = set.Patches.Length;
                    var length = (int)(share * n);
                    var from = share is 0.5 or 0.8 ? n - length : random.Next(0, n - length);
                    var dead = Dead(set, model, channel, from, from + length);
                    var found = ReadingCourse.Find(dead);
                    var isRight = found is { Fault: CourseFault.ChannelGone } && found.Channel == channel;
                    var isNear = isRight && Math.Abs(found!.From - from) <= Strip && Math.Abs(found.To - from - length) <= Strip;
                    var disorder = StripOrder.Find(dead, Strip).Count;
                    (planted, right, near, order) = (planted + 1, right + (isRight ? 1 : 0), near + (isNear ? 1 : 0), order + (disorder > 0 ? 1 : 0));
                    Console.WriteLine($"  channel {channel} gone in {from}..{from + length}: {(found is null ? "nothing found" : Told(found))}{(isNear ? "" : isRight ? ", MISPLACED" : ", MISSED")}{(disorder > 0 ? $"; {disorder} strips called out of order, WRONGLY" : "")}");
                }
            }
        }

        Console.WriteLine($"planted {planted}, channel named {right}, both ends within a strip of {Strip} patches {near}; wrongly called out of order {order}; alarms on {clean} clean charts {alarms}");
        return 0;
    }

    private const int Strip = 21;

    // What the model says of the patch without the channel, and what the real patch had on top of the model.
    private static MeasurementSet Dead(MeasurementSet set, IPrinterModel model, int channel, int from, int to) => With(set, (p, i) =>
    {
        if (i < from || i >= to)
        {
            return p;
        }

        var lab = new double[6];
        model.Predict([.. p.Device, .. p.Device.SetItem(channel, 1)], lab);
        return p with { Lab = new(p.Lab.L - lab[0] + lab[3], p.Lab.A - lab[1] + lab[4], p.Lab.B - lab[2] + lab[5]) };
    });

    private static string Told(CourseFinding f) => $"{f.Fault} in {f.From}..{f.To}, channel {f.Channel}, {f.Size.Value:0.0} dE00";

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

using System.Diagnostics;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;
using Goodsheet.Tests.Shared;

/// <summary>Profiles made from measured charts, judged through Little CMS 2: <c>profile [FILE...]</c>.</summary>
/// <remarks>Without files it takes the charts that lie in ../shared/data beside the project, and says so when they are
/// not there. Prints a table that bench/results keeps.</remarks>
internal static class ProfileBench
{
    private const string Folder = "../shared/data/measurements";
    private const int Trips = 20_000;
    private const int Steps = 256;
    private const double InkLimit = 3.2;

    public static int Run(string[] files)
    {
        if (files.Length == 0)
        {
            files =
            [
                $"{Folder}/rgb-inkjet/matte_A_2420_M0.txt", $"{Folder}/rgb-inkjet/matte_C1_1019_M0.txt", $"{Folder}/rgb-inkjet/glossy_680_6mm_M0.txt",
                $"{Folder}/cmyk/FOGRA39L.txt", $"{Folder}/cmyk/FOGRA29L.txt", $"{Folder}/cmyk/TR003.txt", $"{Folder}/cmyk/TR006.txt",
            ];
        }

        Console.WriteLine("Differences are dE00, mean / 95th percentile / largest. Seconds are those of the clock but where CPU is said.");
        foreach (var file in files)
        {
            Console.WriteLine();
            if (!File.Exists(file))
            {
                Console.WriteLine($"{file} is not here: nothing measured.");
                continue;
            }

            Judge(file);
        }

        return 0;
    }

    private static void Judge(string file)
    {
        var set = MeasurementFile.Read(File.ReadAllBytes(file)).Set!;
        using var process = Process.GetCurrentProcess();
        var (clock, before) = (Stopwatch.StartNew(), process.TotalProcessorTime);
        var model = PrinterModels.Fit([set]);
        var fitted = clock.Elapsed.TotalSeconds;
        var made = Make(IccVersion.V4).File;
        var took = clock.Elapsed.TotalSeconds;
        process.Refresh();
        var cpu = (process.TotalProcessorTime - before).TotalSeconds;
        var two = Make(IccVersion.V2).File;
        Console.WriteLine($"## {Path.GetFileName(file)}");
        Console.WriteLine();
        Console.WriteLine("| figure | seen |");
        Console.WriteLine("|---|---|");
        Row("patches", $"{set.Patches.Length}");
        Row("model; model and profile", $"{fitted:0.0} s; {took:0.0} s");
        Row("model and profile, CPU; half of it, as on two cores with nothing else to do", $"{cpu:0.0} s; {cpu / 2:0.0} s");
        Row("peak memory of the run so far", $"{Process.GetCurrentProcess().PeakWorkingSet64 / 1e6:0} MB");
        Row("findings of the structure check, version 4; 2", $"{IccStructure.Findings(made).Count}; {IccStructure.Findings(two).Count}");

        var patches = set.Averaged();
        var device = patches.SelectMany(p => p.Device).ToArray();
        Lab[] measured = [.. patches.Select(p => p.Lab)];
        Row("profile against the measured patches, absolute", Figures(measured, Labs(Lcms.ToLab(device, made, RenderingIntent.AbsoluteColorimetric))));
        Row("the same, version 2", Figures(measured, Labs(Lcms.ToLab(device, two, RenderingIntent.AbsoluteColorimetric))));
        Row("model, each patch left out in turn", Figures(PrinterModels.LeaveOneOut([set]).Select(d => d.Value)));

        foreach (var (name, colours) in new (string, double[])[] { ("interior", Inside(set.Channels)), ("surface", Surface(set.Channels)) })
        {
            Row($"there and back, {name}", Trip(colours, made, RenderingIntent.RelativeColorimetric));
            Row($"the same, version 2", Trip(colours, two, RenderingIntent.RelativeColorimetric));
        }

        Row("there and back, perceptual, interior", Trip(Inside(set.Channels), made, RenderingIntent.Perceptual));
        Greys(made, set.Channels);
        Row("blue of sRGB turns by, perceptual; relative", $"{Turn(made, RenderingIntent.Perceptual):0.0}; {Turn(made, RenderingIntent.RelativeColorimetric):0.0} degrees of IPT");
        Row("paper white, ink taken: relative; perceptual", $"{White(made, RenderingIntent.RelativeColorimetric):0.#####}; {White(made, RenderingIntent.Perceptual):0.#####}");
        foreach (var law in ProfileLaws.Of(made, InkLimit).Concat(ProfileLaws.Between(made, two)))
        {
            if (law.Value > 0)
            {
                Row($"{law.Law}{(law.Kept ? "" : ", **broken**")}", $"{law.Value:0.####}, at most {law.Most:0.####}");
            }
        }

        Row("strong ramps lead back, by intent, L*a*b*", string.Join("; ", ProfileLaws.StrongTurnBack(made).Select(t => $"{t:0.00}")));
        if (set.Channels == 3)
        {
            Row("volume of the gamut", $"{GamutSolid.Of(model).Volume:N0}");
        }

        MadeProfile Make(IccVersion version) => ProfileMaker.Make(model, new() { Name = "bench", Created = DateTimeOffset.UnixEpoch.AddYears(50), Version = version });
    }

    private static void Greys(byte[] profile, int channels)
    {
        var lab = Ramp().SelectMany(x => (double[])[100 * x, 0, 0]).ToArray();
        var printed = Printed(Lcms.FromLab(lab, profile, RenderingIntent.RelativeColorimetric));
        var black = printed.Min(p => p.L);
        // Nearer to black a printer has no neutral.
        Row("neutrals, from 4 L* above black", Figures(
            printed.Select((p, i) => (Got: p, Wanted: new Lab(lab[3 * i], 0, 0))).Where(x => x.Wanted.L > black + 4).Select(x => CieDe2000.Between(x.Got, x.Wanted).Value)));
        var reversals = ((RenderingIntent[])[RenderingIntent.RelativeColorimetric, RenderingIntent.Perceptual, RenderingIntent.Saturation])
            .Select(intent => Down(Printed(Lcms.FromLab(lab, profile, intent)))).ToArray();
        Row("largest step back of a grey ramp, by intent", string.Join("; ", reversals.Select(r => $"{r:0.000}")));
        double[] black0 = channels == 4 ? [0, 0, 0, 1] : new double[channels];
        var darkest = Printed(black0)[0].L;
        double Of(RenderingIntent intent) => Printed(Lcms.Convert([0.0, 0.0, 0.0], BuiltInProfiles.SRgb(), profile, intent, true))[0].L;
        Row(
            $"L* of {(channels == 4 ? "black ink alone" : "device black")}; of a picture's black, relative with compensation; perceptual",
            $"{darkest:0.00}; {Of(RenderingIntent.RelativeColorimetric):0.00}; {Of(RenderingIntent.Perceptual):0.00}");

        Lab[] Printed(double[] device) => Labs(Lcms.ToLab(device, profile, RenderingIntent.RelativeColorimetric));
    }

    private static double Down(Lab[] ramp)
    {
        var (most, last) = (0.0, double.MinValue);
        foreach (var lab in ramp)
        {
            (most, last) = (Math.Max(most, last - lab.L), Math.Max(last, lab.L));
        }

        return most;
    }

    private static double Turn(byte[] profile, RenderingIntent intent)
    {
        double[] blue = [0, 0, 1];
        var wanted = Labs(Lcms.ToLab(blue, BuiltInProfiles.SRgb(), RenderingIntent.RelativeColorimetric))[0];
        var ink = Lcms.Convert(blue, BuiltInProfiles.SRgb(), profile, intent, true);
        var printed = Labs(Lcms.ToLab(ink, profile, RenderingIntent.RelativeColorimetric))[0];
        return Math.IEEERemainder(Hue(printed) - Hue(wanted), 360);

        static double Hue(Lab colour) => HueLinear.From(colour) is var (_, p, t) ? Math.Atan2(t, p) * 180 / Math.PI : 0;
    }

    private static double White(byte[] profile, RenderingIntent intent) =>
        Lcms.FromLab([100.0, 0.0, 0.0], profile, intent) is { Length: 4 } ink ? ink.Max() : 1 - Lcms.FromLab([100.0, 0.0, 0.0], profile, intent).Min();

    private static double[] Inside(int channels)
    {
        var random = new Random(5);
        // Within the ink limit, as far as four channels go.
        return [.. Enumerable.Range(0, Trips * channels).Select(_ => (0.04 + (0.92 * random.NextDouble())) * (channels == 4 ? 0.8 : 1))];
    }

    private static double[] Surface(int channels)
    {
        var device = Inside(channels);
        for (var i = 0; i < device.Length / channels; i++)
        {
            device[(i * channels) + (i % Math.Min(3, channels))] = i / 3 % 2;
        }

        return device;
    }

    private static string Trip(double[] device, byte[] profile, RenderingIntent intent)
    {
        var lab = Lcms.ToLab(device, profile, intent);
        return Figures(Labs(lab), Labs(Lcms.ToLab(Lcms.FromLab(lab, profile, intent), profile, intent)));
    }

    private static IEnumerable<double> Ramp() => Enumerable.Range(0, Steps).Select(i => i / (Steps - 1.0));

    private static Lab[] Labs(double[] rows) => [.. rows.Chunk(3).Select(c => new Lab(c[0], c[1], c[2]))];

    private static string Figures(Lab[] expected, Lab[] got) => Figures(expected.Zip(got, (e, g) => CieDe2000.Between(e, g).Value));

    private static string Figures(IEnumerable<double> differences)
    {
        var errors = differences.Order().ToArray();
        return $"{errors.Average():0.000} / {errors[(int)(errors.Length * .95)]:0.00} / {errors[^1]:0.0}";
    }

    private static void Row(string figure, string seen) => Console.WriteLine($"| {figure} | {seen} |");
}

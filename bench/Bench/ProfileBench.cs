using System.Diagnostics;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;
using Goodsheet.Tests.Shared;

/// <summary>Profiles made from measured charts, judged through Little CMS 2: <c>profile [FILE...]</c>.</summary>
/// <remarks>Without files it takes the charts that lie in ../shared/data beside the project, and says so when they are not there.</remarks>
internal static class ProfileBench
{
    private const string Folder = "../shared/data/measurements";

    public static int Run(string[] files)
    {
        if (files.Length == 0)
        {
            files =
            [
                $"{Folder}/rgb-inkjet/matte_A_2420_M0.txt", $"{Folder}/rgb-inkjet/glossy_680_6mm_M0.txt",
                $"{Folder}/cmyk/FOGRA39L.txt", $"{Folder}/cmyk/TR006.txt",
            ];
        }

        foreach (var file in files)
        {
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
        var clock = Stopwatch.StartNew();
        var model = PrinterModels.Fit([set]);
        var fitted = clock.Elapsed.TotalSeconds;
        var made = ProfileMaker.Make(model, new() { Name = "bench", Created = DateTimeOffset.UnixEpoch.AddYears(50) });
        Console.WriteLine($"{Path.GetFileName(file)}: {set.Patches.Length} patches, model {fitted:0.0} s, with profile {clock.Elapsed.TotalSeconds:0.0} s, peak {Process.GetCurrentProcess().PeakWorkingSet64 / 1e6:0} MB");

        var patches = set.Averaged();
        var device = patches.SelectMany(p => p.Device).ToArray();
        var measured = patches.Select(p => p.Lab).ToArray();
        Show("A2B absolute against the measured patches", measured, Lcms.ToLab(device, made.File, RenderingIntent.AbsoluteColorimetric));
        var loo = PrinterModels.LeaveOneOut([set]).Select(d => d.Value).Order().ToArray();
        Console.WriteLine($"  leave one out: {loo.Average():0.000} / {loo[(int)(loo.Length * .95)]:0.00} / {loo[^1]:0.0}");
        RoundTrip(made.File, set.Channels);
    }

    private static void RoundTrip(byte[] profile, int channels)
    {
        var random = new Random(5);
        var inside = Enumerable.Range(0, 20_000 * channels).Select(_ => 0.04 + (0.92 * random.NextDouble())).ToArray();
        Trip("interior", inside);
        var surface = (double[])inside.Clone();
        for (var i = 0; i < surface.Length / channels; i++)
        {
            surface[(i * channels) + (i % Math.Min(3, channels))] = i / 3 % 2;
        }

        Trip("surface", surface);

        void Trip(string name, double[] device)
        {
            var lab = Lcms.ToLab(device, profile, RenderingIntent.RelativeColorimetric);
            var again = Lcms.ToLab(Lcms.FromLab(lab, profile, RenderingIntent.RelativeColorimetric), profile, RenderingIntent.RelativeColorimetric);
            Show($"round trip, {name}", [.. lab.Chunk(3).Select(c => new Lab(c[0], c[1], c[2]))], again);
        }
    }

    private static void Show(string name, Lab[] expected, double[] rows)
    {
        var errors = expected.Select((e, i) => CieDe2000.Between(e, new(rows[3 * i], rows[(3 * i) + 1], rows[(3 * i) + 2])).Value).Order().ToArray();
        Console.WriteLine($"  {name}: {errors.Average():0.000} / {errors[(int)(errors.Length * .95)]:0.00} / {errors[^1]:0.0}");
    }
}

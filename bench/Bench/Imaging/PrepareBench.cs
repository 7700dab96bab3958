using System.Diagnostics;
using System.Globalization;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;

namespace Goodsheet.Bench.Imaging;

/// <summary>A large 16-bit TIFF made ready for print: time and peak memory: <c>prepare [WIDTH HEIGHT [PROFILE]]</c>.</summary>
internal static class PrepareBench
{
    private const double Limit = 400; // MB

    public static int Run(string[] args)
    {
        var (width, height) = args is [var w, var h, ..] ? (int.Parse(w, CultureInfo.InvariantCulture), int.Parse(h, CultureInfo.InvariantCulture)) : (24_000, 14_000);
        var profile = args is [_, _, var file, ..] ? File.ReadAllBytes(file) : BuiltInProfiles.WideRgb();
        var folder = Directory.CreateTempSubdirectory("goodsheet-bench");
        try
        {
            var (picture, output) = (Path.Combine(folder.FullName, "in.tif"), Path.Combine(folder.FullName, "out.tif"));
            Draw(picture, width, height);
            var before = Process.GetCurrentProcess().TotalProcessorTime;
            var clock = Stopwatch.StartNew();
            var made = PrintPreparation.Run(
                picture,
                profile,
                new() { WidthMm = width / 400.0 * 25.4, HeightMm = height / 400.0 * 25.4, Ppi = 360, Intent = RenderingIntent.RelativeColorimetric, BorderMm = 10 },
                output);
            var cpu = (Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds;
            using var process = Process.GetCurrentProcess();
            var peak = process.PeakWorkingSet64 / 1e6;
            Console.WriteLine(made.Value is { } done
                ? $"{width} x {height} ({(double)width * height / 1e6:0} MP) -> {done.Width} x {done.Height}: {clock.Elapsed.TotalSeconds:0.0} s, CPU {cpu:0.0} s, peak {peak:0} MB; under {Limit} MB wanted."
                : made.Fault!.Message);
            return made.Value is null || peak > Limit ? 1 : 0;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    // Noise on a ramp, written row by row: no two pixels alike, which is the slowest there is.
    internal static void Draw(string path, int width, int height)
    {
        using var tiff = new TiffStrips(path, width, height, 3);
        var random = new Random(20260414);
        var row = new ushort[width * 3];
        for (var y = 0; y < height; y++)
        {
            for (var i = 0; i < row.Length; i++)
            {
                row[i] = (ushort)((i * 50_000L / row.Length) + random.Next(15_000));
            }

            tiff.Write(row);
        }

        tiff.Finish(400, BuiltInProfiles.SRgb());
    }
}

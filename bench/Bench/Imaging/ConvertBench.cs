using System.Diagnostics;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Bench.Imaging;

/// <summary>Pixels a second on one thread: the kernel, the exact way, and Little CMS 2, side by side: <c>convert [printer | [FROM] TO]</c>.</summary>
/// <remarks>Each is the median CPU time of five. The reference runs once as the tests have it, without optimisation.</remarks>
internal static class ConvertBench
{
    private const int Pixels = 1_000_000;
    private const int Runs = 5;

    public static int Run(string[] args)
    {
        var (source, destination) = args switch
        {
            ["printer"] => (BuiltInProfiles.SRgb(), IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb, gridFromPcs: 33), IccVersion.V4)),
            [var to] => (BuiltInProfiles.SRgb(), File.ReadAllBytes(to)),
            [var from, var to, ..] => (File.ReadAllBytes(from), File.ReadAllBytes(to)),
            _ => (BuiltInProfiles.SRgb(), BuiltInProfiles.WideRgb()),
        };
        var transform = ColourTransform.Create(
            IccProfile.Read(source).Profile!, IccProfile.Read(destination).Profile!, RenderingIntent.RelativeColorimetric, true);
        var random = new Random(20260413);
        var pixels = new ushort[Pixels * 3];
        for (var i = 0; i < pixels.Length; i++)
        {
            pixels[i] = (ushort)random.Next(65536);
        }

        var exact = new ushort[Pixels * transform.Outputs];
        var rows = new PixelRows(transform);
        Console.WriteLine($"{Pixels / 1e6:0} MP of 16-bit noise, {transform.Inputs} -> {transform.Outputs} channels; MP per second of CPU");
        Console.WriteLine($"exact stages           {Speed(() => rows.Convert(pixels, exact)):0.0}");
        var theirs = new ushort[exact.Length];
        var exactly = Lcms.Ready(source, destination, RenderingIntent.RelativeColorimetric, true, exactly: true);
        Console.WriteLine($"Little CMS {Lcms.Version}, exact  {Speed(() => exactly(pixels, theirs)):0.0}; largest difference {Largest(exact, theirs)} of 65535");
        var baked = Lcms.Ready(source, destination, RenderingIntent.RelativeColorimetric, true, exactly: false);
        Console.WriteLine($"Little CMS, optimised  {Speed(() => baked(pixels, theirs)):0.0}; largest difference from exact {Largest(exact, theirs)}");
        if (transform is { Inputs: 3, Outputs: 3 })
        {
            foreach (var points in (int[])[33, 65])
            {
                var table = GridTable.Bake(points, transform);
                var fast = new ushort[pixels.Length];
                var speed = Speed(() => TetrahedralKernel.Convert(table, pixels, fast));
                Console.WriteLine($"kernel, {points} nodes       {speed:0}; largest difference from exact {Largest(fast, exact)}");
            }
        }

        return 0;
    }

    private static int Largest(ushort[] a, ushort[] b) => a.Zip(b, (x, y) => Math.Abs(x - y)).Max();

    private static double Speed(Action convert)
    {
        for (var i = 0; i < Runs; i++)
        {
            convert(); // until it is compiled for good
        }

        var seconds = new double[Runs];
        for (var i = 0; i < Runs; i++)
        {
            var before = Process.GetCurrentProcess().TotalProcessorTime;
            convert();
            seconds[i] = (Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds;
        }

        return Pixels / 1e6 / seconds.Order().ElementAt(Runs / 2);
    }
}

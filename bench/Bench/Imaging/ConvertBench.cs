using System.Diagnostics;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Bench.Imaging;

/// <summary>Pixels a second on one thread: the kernel, the exact way, and Little CMS 2, side by side: <c>convert [printer | [FROM] TO]</c>.</summary>
/// <remarks>Each is the median CPU time of 25, taken in turns with the reference engine as others use it; that engine also runs
/// once as the tests have it, without optimisation.</remarks>
internal static class ConvertBench
{
    private const int Pixels = 1_000_000;
    private const int Runs = 25;

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
        var theirs = new ushort[exact.Length];
        var rows = new PixelRows(transform);
        var exactly = Lcms.Ready(source, destination, RenderingIntent.RelativeColorimetric, true, exactly: true);
        var baked = Lcms.Ready(source, destination, RenderingIntent.RelativeColorimetric, true, exactly: false);
        Console.WriteLine($"{Pixels / 1e6:0} MP of 16-bit noise, {transform.Inputs} -> {transform.Outputs} channels; MP per second of CPU, in turns with Little CMS {Lcms.Version} as it is used");
        exactly(pixels, theirs);
        rows.Convert(pixels, exact);
        var apart = Largest(exact, theirs);
        Beside("Little CMS, exact", () => exactly(pixels, theirs), 1, "the reference");
        Beside("stages of ours", () => rows.Convert(pixels, exact), Runs, $"largest difference from it {apart} of 65535");
        baked(pixels, theirs);
        Console.WriteLine($"Little CMS, as used: largest difference from exact {Largest(exact, theirs)}");
        if (transform is { Inputs: 3, Outputs: 3 })
        {
            foreach (var points in (int[])[33, 65])
            {
                var table = GridTable.Bake(points, transform);
                var fast = new ushort[pixels.Length];
                TetrahedralKernel.Convert(table, pixels, fast);
                Beside($"kernel, {points} nodes", () => TetrahedralKernel.Convert(table, pixels, fast), Runs, $"largest difference from exact {Largest(fast, exact)}");
            }
        }

        return 0;

        void Beside(string way, Action convert, int runs, string remark)
        {
            var (ours, reference) = Speeds(convert, () => baked(pixels, theirs), runs);
            Console.WriteLine($"{way,-18} {ours,6:0.0} beside {reference,5:0.0}: {ours / reference:0.00} times; {remark}");
        }
    }

    private static int Largest(ushort[] a, ushort[] b) => a.Zip(b, (x, y) => Math.Abs(x - y)).Max();

    // In turns, so that what else the machine does slows both.
    private static (double Ours, double Theirs) Speeds(Action ours, Action theirs, int runs)
    {
        // Until it is compiled for good: that begins at thirty calls, a little later.
        for (var i = 0; runs > 1 && i < 40; i++)
        {
            ours();
        }

        Thread.Sleep(runs > 1 ? 300 : 0);
        var (a, b) = (new double[runs], new double[runs]);
        for (var i = 0; i < runs; i++)
        {
            (a[i], b[i]) = (Seconds(ours), Seconds(theirs));
        }

        return (Pixels / 1e6 / a.Order().ElementAt(runs / 2), Pixels / 1e6 / b.Order().ElementAt(runs / 2));
    }

    private static double Seconds(Action convert)
    {
        using var process = Process.GetCurrentProcess();
        var before = process.TotalProcessorTime;
        convert();
        process.Refresh();
        return (process.TotalProcessorTime - before).TotalSeconds;
    }
}

using System.Diagnostics;
using System.Globalization;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using Goodsheet.Imaging;
using NetVips;

namespace Goodsheet.Bench.Imaging;

/// <summary>336 megapixels of 16 bits, each way in a process of its own: prepared, converted only, and converted by libvips' own step: <c>large [WIDTH HEIGHT [TURNS]]</c>.</summary>
/// <remarks>The last two are done in turns, so that what else the machine does slows both. The printer is invented, with tables; the picture is a ramp with noise. What was made is read back through libtiff, by libvips.</remarks>
internal static class LargeBench
{
    private const double Ppi = 360;

    public static int Run(string[] args)
    {
        if (args is ["one", var way, var folder])
        {
            return One(way, folder);
        }

        var numbers = args.Select(a => int.Parse(a, CultureInfo.InvariantCulture)).ToArray();
        var (width, height) = numbers is [var w, var h, ..] ? (w, h) : (21_000, 16_000);
        var turns = numbers is [_, _, var t] ? t : 1;
        var scratch = Directory.CreateTempSubdirectory("goodsheet-bench");
        try
        {
            File.WriteAllBytes(Path.Combine(scratch.FullName, "paper.icc"), IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb, gridFromPcs: 33), IccVersion.V4));
            PrepareBench.Draw(Path.Combine(scratch.FullName, "in.tif"), width, height);
            Console.WriteLine($"{width} x {height}: {(double)width * height / 1e6:0} MP, 16 bits, sRGB to an invented printer's tables of 33 nodes, relative with black-point compensation");
            var failed = 0;
            foreach (var each in (string[])["prepare", .. Enumerable.Repeat((string[])["convert", "libvips"], turns).SelectMany(t => t)])
            {
                using var process = Process.Start(Environment.ProcessPath!, ["large", "one", each, scratch.FullName]);
                process.WaitForExit();
                failed |= process.ExitCode;
                File.Delete(Path.Combine(scratch.FullName, "out.tif"));
            }

            return failed;
        }
        finally
        {
            scratch.Delete(recursive: true);
        }
    }

    private static int One(string way, string folder)
    {
        var (picture, profile, output) = (Path.Combine(folder, "in.tif"), Path.Combine(folder, "paper.icc"), Path.Combine(folder, "out.tif"));
        var image = ImageFile.Probe(picture).Value!;
        var (before, systems) = (Process.GetCurrentProcess().TotalProcessorTime, Process.GetCurrentProcess().PrivilegedProcessorTime);
        var clock = Stopwatch.StartNew();
        var recipe = new PrintRecipe
        {
            WidthMm = image.Width / Ppi * 25.4,
            HeightMm = image.Height / Ppi * 25.4,
            Ppi = Ppi,
            Intent = RenderingIntent.RelativeColorimetric,
            HaloMm = 0,
        };
        // Prepared: 400 pixels an inch come to 360, sharpened, with a border.
        var (across, down) = (image.Width / 400.0 * 25.4, image.Height / 400.0 * 25.4);
        recipe = way == "prepare" ? recipe with { WidthMm = across, HeightMm = down, BorderMm = 10, HaloMm = 0.3 } : recipe;
        if (way == "libvips")
        {
            using var opened = Image.NewFromFile(picture, access: Enums.Access.Sequential);
            using var theirs = opened.IccTransform(profile, embedded: true, intent: Enums.Intent.Relative, depth: 16, blackPointCompensation: true);
            theirs.Tiffsave(output);
            using var file = File.OpenHandle(output, access: FileAccess.ReadWrite);
            RandomAccess.FlushToDisk(file); // as ours is: else what is compared is whether a file is safe
        }
        else if (PrintPreparation.Run(picture, File.ReadAllBytes(profile), recipe, output).Fault is { } fault)
        {
            Console.WriteLine(fault.Message);
            return 1;
        }

        var (seconds, cpu) = (clock.Elapsed.TotalSeconds, (Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds);
        var system = (Process.GetCurrentProcess().PrivilegedProcessorTime - systems).TotalSeconds;
        var peak = Process.GetCurrentProcess().PeakWorkingSet64 / 1e6;
        using var made = Image.NewFromFile(output, access: Enums.Access.Sequential);
        var same = made.Contains("icc-profile-data") && ((byte[])made.Get("icc-profile-data")).AsSpan().SequenceEqual(File.ReadAllBytes(profile));
        Console.WriteLine(
            $"{way,-8} {seconds:0.0} s, CPU {cpu:0.0} s ({system:0.0} the system's), peak {peak:0} MB; read back: {made.Width} x {made.Height}, {made.Format}, {made.Bands} channels, {made.Xres * 25.4:0.###} an inch, the paper's profile {(same ? "whole" : "NOT THERE")}");
        return way == "libvips" || (same && made.Format == Enums.BandFormat.Ushort && (made.Width, made.Height) == (recipe.FullWidth, recipe.FullHeight)) ? 0 : 1;
    }
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Bench.Colour;

/// <summary>Our Lab of 620 spectra against the Lab that the instrument itself computed of them.</summary>
internal static class SpectraBench
{
    private const string File = "../shared/data/measurements/spectral-check_linear.txt";

    // To be at most this, in CIE 1976 dE*ab.
    private const double Limit = 0.01;

    public static int Run(string[] args)
    {
        var file = args is [var given, ..] ? given : File;
        if (!System.IO.File.Exists(file))
        {
            Console.WriteLine($"{file} is not here: nothing measured.");
            return 0;
        }

        var text = System.IO.File.ReadAllText(file);
        var ours = MeasurementFile.Read(System.Text.Encoding.UTF8.GetBytes(text)).Set!;
        // With the wavelengths renamed, the reader falls back on the Lab of the instrument.
        var theirs = MeasurementFile.Read(System.Text.Encoding.UTF8.GetBytes(text.Replace("SPECTRAL_NM", "OTHER_", StringComparison.Ordinal))).Set!;
        double[] e = [.. ours.Patches.Zip(theirs.Patches).Select(p => Distance(p.First.Lab, p.Second.Lab)).Order()];
        Console.WriteLine($"{e.Length} spectra against the instrument's own Lab, dE*ab: mean {e.Average():0.0000}, largest {e[^1]:0.0000}; at most {Limit} wanted.");
        return e[^1] <= Limit ? 0 : 1;
    }

    private static double Distance(Lab a, Lab b) => Math.Sqrt(((a.L - b.L) * (a.L - b.L)) + ((a.A - b.A) * (a.A - b.A)) + ((a.B - b.B) * (a.B - b.B)));
}

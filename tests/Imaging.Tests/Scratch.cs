using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Tests.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>A folder of its own for a test's files, gone after it, and pictures to put in it.</summary>
public sealed class Scratch : IDisposable
{
    public static readonly byte[] Printer = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb), IccVersion.V4);
    public static readonly byte[] CmykPrinter = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Cmyk, gridToPcs: 5), IccVersion.V4);

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-picture");

    public string this[string name] => Path.Combine(folder.FullName, name);

    public string[] Files => [.. folder.GetFiles().Select(f => f.Name)];

    public static string Given(string name) => Path.Combine(AppContext.BaseDirectory, "Pictures", name);

    public static IccProfile Read(byte[] profile) => IccProfile.Read(profile).Profile!;

    internal static PictureResult<Prepared> Prepare(string picture, byte[] profile, PrintRecipe recipe, string output) =>
        PrintPreparation.Run(picture, profile, recipe, output, cancel: TestContext.Current.CancellationToken);

    internal static PictureResult<ImageStatistics> Look(string picture, IccProfile printer) =>
        ImageStatistics.Measure(picture, printer, blackPointCompensation: true, TestContext.Current.CancellationToken);

    public void Dispose() => folder.Delete(recursive: true);

    /// <summary>Red to the right, green downwards, blue even: every corner another colour.</summary>
    public string Ramp(string name, int width, int height, int orientation = 1, bool deep = false)
    {
        using var xyz = Image.Xyz(width, height);
        using var red = xyz[0] * (255.0 / Math.Max(1, width - 1));
        using var green = xyz[1] * (255.0 / Math.Max(1, height - 1));
        using var joined = red.Bandjoin(green, red * 0 + 128);
        using var scaled = joined * (deep ? 257 : 1);
        using var codes = scaled.Cast(deep ? Enums.BandFormat.Ushort : Enums.BandFormat.Uchar)
            .Copy(interpretation: deep ? Enums.Interpretation.Rgb16 : Enums.Interpretation.Srgb);
        using var turned = codes.Mutate(m => m.Set(GValue.GIntType, "orientation", orientation));
        turned.WriteToFile(this[name]);
        return this[name];
    }
}

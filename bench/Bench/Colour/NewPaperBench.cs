using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Bench.Colour;

/// <summary>A few patches of a paper that is new, with another paper known on the same printer: what does each size buy?</summary>
internal static class NewPaperBench
{
    private static readonly int[] Sizes = [16, 24, 32, 50, 100];

    public static void Show(MeasurementSet matte, MeasurementSet gloss)
    {
        Console.WriteLine("\n| a new paper, mean dE00 | gloss from matte | gloss alone | matte from gloss | matte alone |\n|---|---|---|---|---|");
        foreach (var size in Sizes)
        {
            var cells = new[] { (New: gloss, Known: matte), (New: matte, Known: gloss) }.SelectMany(pair =>
            {
                var few = ModelBench.Design(pair.New, size, greys: 5);
                var rest = ModelBench.Without(pair.New, few);
                return new[] { Mean(PrinterModels.FitFromKnown([few], [pair.Known]), rest), Mean(PrinterModels.Fit([few]), rest) };
            });
            Console.WriteLine($"| {size} patches | {string.Join(" | ", cells.Select(c => $"{c:0.00}"))} |");
        }
    }

    private static double Mean(IPrinterModel model, MeasurementSet judge)
    {
        var patches = judge.Averaged();
        var lab = new double[3 * patches.Length];
        model.Predict([.. patches.SelectMany(p => p.Device)], lab);
        return patches.Select((p, i) => CieDe2000.Between(p.Lab, new Lab(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2])).Value).Average();
    }
}

using Goodsheet.Colour.Charts;
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
        Rows("patches that leave least in doubt", matte, gloss, Picked);
        Rows("patches as far apart as can be", matte, gloss, (chart, size) => ModelBench.Design(chart, size, greys: 5));
    }

    private static void Rows(string placed, MeasurementSet matte, MeasurementSet gloss, Func<MeasurementSet, int, MeasurementSet> design)
    {
        Console.WriteLine($"\n| a new paper, mean dE00, {placed} | gloss from matte | gloss alone | matte from gloss | matte alone |\n|---|---|---|---|---|");
        foreach (var size in Sizes)
        {
            var cells = new[] { (New: gloss, Known: matte), (New: matte, Known: gloss) }.SelectMany(pair =>
            {
                var few = design(pair.New, size);
                var rest = ModelBench.Without(pair.New, few);
                return new[] { Mean(PrinterModels.FitFromKnown([few], [pair.Known]), rest), Mean(PrinterModels.Fit([few]), rest) };
            });
            Console.WriteLine($"| {size} patches | {string.Join(" | ", cells.Select(c => $"{c:0.00}"))} |");
        }
    }

    // Corners, up to five greys, and what a small chart of the product's own would pick of these.
    private static MeasurementSet Picked(MeasurementSet chart, int size)
    {
        double[][] all = [.. chart.Averaged().Select(p => p.Device.ToArray())];
        var greys = all.Where(d => d[0] == d[1] && d[1] == d[2]).OrderBy(d => d[0]).ToArray();
        var step = Math.Max(1, (greys.Length - 1) / 4.0);
        var (least, chosen) = (new LeastDoubt(all), new HashSet<string>());
        foreach (var device in all.Where(d => d.All(v => v is 0 or 1)).Concat(Enumerable.Range(0, Math.Min(5, greys.Length)).Select(i => greys[(int)(i * step)])))
        {
            if (chosen.Add(ModelBench.Key(device)))
            {
                least.Note(device);
            }
        }

        while (chosen.Count < size)
        {
            chosen.Add(ModelBench.Key(least.Next()));
        }

        return chart with { Patches = [.. chart.Patches.Where(p => chosen.Contains(ModelBench.Key(p.Device)))] };
    }

    private static double Mean(IPrinterModel model, MeasurementSet judge)
    {
        var patches = judge.Averaged();
        var lab = new double[3 * patches.Length];
        model.Predict([.. patches.SelectMany(p => p.Device)], lab);
        return patches.Select((p, i) => CieDe2000.Between(p.Lab, new Lab(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2])).Value).Average();
    }
}

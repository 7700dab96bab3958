using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Bench.Colour;

/// <summary>Misreads of 2 to 8 dE00 planted in 1 % of a real chart, and two strips swapped, seeds 0 to 9.</summary>
internal static class MisreadBench
{
    private const int Seeds = 10;
    private const int Strip = 20;

    public static void Show(string name, MeasurementSet set)
    {
        var (planted, found, wrong, swapped, leftOut) = (0, 0, 0, 0, 0);
        var patches = set.Averaged().Length;
        for (var seed = 0; seed < Seeds; seed++)
        {
            var random = new Random(seed);
            var singles = set.Patches.GroupBy(p => ModelBench.Key(p.Device)).Where(g => g.Count() == 1).Select(g => set.Patches.IndexOf(g.First())).ToArray();
            random.Shuffle(singles);
            var chosen = singles.Take(patches / 100).ToHashSet();
            var harmed = set with
            {
                Patches = [.. set.Patches.Select((p, i) => chosen.Contains(i) ? p with { Lab = Moved(p.Lab, 2 + (6 * random.NextDouble()), random) } : p)],
            };
            var said = Misreads.Find([harmed]);
            var right = said.Count(f => chosen.Any(i => set.Patches[i].Device.SequenceEqual(f.Patch.Device)));
            (planted, found, wrong) = (planted + chosen.Count, found + right, wrong + said.Count - right);
            swapped += FindsSwap(set, random) ? 1 : 0;
            leftOut += FindsLeftOut(set, random) ? 1 : 0;
        }

        Console.WriteLine($"\n{name}: {100.0 * found / planted:0.0} % of {planted} planted misreads found, {100.0 * wrong / (Seeds * patches):0.000} % false; "
            + $"{Misreads.Find([set]).Count} in the chart as it is; {swapped} of {Seeds} swapped strips and {leftOut} of {Seeds} left out found.");
    }

    // The last place holds the first strip once more.
    private static bool FindsLeftOut(MeasurementSet set, Random random)
    {
        var strip = random.Next(set.Patches.Length / Strip);
        var labs = set.Patches.Select(p => p.Lab).ToArray();
        Lab[] read = [.. labs[..(strip * Strip)], .. labs[((strip + 1) * Strip)..], .. labs[..Strip]];
        return StripOrder.Find(set with { Patches = [.. set.Patches.Select((p, i) => p with { Lab = read[i] })] }, Strip) is [{ Fault: OrderFault.LeftOut } f] && f.Strip == strip;
    }

    private static bool FindsSwap(MeasurementSet set, Random random)
    {
        var strips = set.Patches.Length / Strip;
        var one = random.Next(strips);
        var other = (one + 1 + random.Next(strips - 1)) % strips;
        var labs = set.Patches.Select(p => p.Lab).ToArray();
        for (var i = 0; i < Strip; i++)
        {
            (labs[(one * Strip) + i], labs[(other * Strip) + i]) = (labs[(other * Strip) + i], labs[(one * Strip) + i]);
        }

        var found = StripOrder.Find(set with { Patches = [.. set.Patches.Select((p, i) => p with { Lab = labs[i] })] }, Strip);
        return found is [{ Fault: OrderFault.Swapped } f] && f.Strip == Math.Min(one, other) && f.Other == Math.Max(one, other);
    }

    // In a random direction, just as far as asked.
    internal static Lab Moved(Lab from, double dE, Random random)
    {
        var (l, a, b) = (random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5);
        var (low, high) = (0.0, 200.0);
        for (var i = 0; i < 50; i++)
        {
            var middle = (low + high) / 2;
            var to = new Lab(from.L + (middle * l), from.A + (middle * a), from.B + (middle * b));
            (low, high) = CieDe2000.Between(from, to).Value < dE ? (middle, high) : (low, middle);
        }

        return new(from.L + (low * l), from.A + (low * a), from.B + (low * b));
    }
}

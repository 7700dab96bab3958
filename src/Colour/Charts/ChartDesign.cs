using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Charts;

/// <summary>Which colours a chart should have: corners, greys, nearly greys, skin, and the rest as far apart as can be.</summary>
public static class ChartDesign
{
    /// <summary>The fewest patches of a chart.</summary>
    public const int Fewest = 16;

    /// <summary>The most patches of a chart.</summary>
    public const int Most = 6_000;

    private const int Candidates = 16_000;
    private const int GreyLevels = 256;

    // Up to this many patches of RGB are picked by the doubt they leave, of fewer candidates.
    private const int Small = 64;
    private const int SmallCandidates = 2_000;

    /// <summary>The device values of a first chart, in no order yet.</summary>
    /// <param name="space">Grey, RGB or CMYK.</param>
    /// <param name="count">How many patches, <see cref="Fewest"/> to <see cref="Most"/>; some are repeats, which tell the room's own noise.</param>
    /// <param name="inkLimit">The most ink of all channels together, 1 a channel; CMYK only.</param>
    /// <exception cref="ArgumentException">The space is another, or the count is out of range.</exception>
    public static IReadOnlyList<double[]> First(DeviceSpace space, int count, double inkLimit = 3.2)
    {
        Check(count);
        var chosen = space switch
        {
            DeviceSpace.Grey => Grey(count),
            DeviceSpace.Rgb => RgbFixed(count),
            DeviceSpace.Cmyk => CmykFixed(count, inkLimit),
            _ => throw new ArgumentException("Charts are made for grey, RGB and CMYK.", nameof(space)),
        };
        if (space is DeviceSpace.Grey)
        {
            return chosen;
        }

        var repeats = Math.Clamp(count / 60, 2, 16);
        chosen = [.. chosen.Take(count - repeats)];
        Fill(chosen, space, count - repeats, inkLimit);

        // Repeats from all over the chart, paper and black among them.
        var every = Math.Max(1, chosen.Count / repeats);
        chosen.AddRange(Enumerable.Range(0, repeats).Select(i => chosen[Math.Min(chosen.Count - 1, i * every)]).ToArray());
        return chosen;
    }

    /// <summary>The device values of a second chart for a condition that has been learnt: where the model is least sure of
    /// what is seen, and not beside each other.</summary>
    /// <param name="model">What was learnt.</param>
    /// <param name="known">The charts it was learnt from.</param>
    /// <param name="count">How many patches.</param>
    /// <param name="inkLimit">As of <see cref="First"/>.</param>
    /// <exception cref="ArgumentException">The count is out of range, or the model's channels are not 1, 3 or 4.</exception>
    public static IReadOnlyList<double[]> Second(ILearntPrinter model, IReadOnlyList<MeasurementSet> known, int count, double inkLimit = 3.2)
    {
        Check(count);
        var space = model.Channels switch
        {
            1 => DeviceSpace.Grey,
            3 => DeviceSpace.Rgb,
            4 => DeviceSpace.Cmyk,
            _ => throw new ArgumentException("Charts are made for grey, RGB and CMYK.", nameof(model)),
        };
        var candidates = space is DeviceSpace.Grey ? [.. Grey(GreyLevels)] : CandidatesOf(space, inkLimit);
        var farthest = new FarthestPoint(candidates, space is DeviceSpace.Cmyk);
        foreach (var patch in known.SelectMany(k => k.Averaged()))
        {
            farthest.Note([.. patch.Device]);
        }

        var unsure = candidates.AsParallel().AsOrdered().Select(c => Unsure(model, c)).ToArray();
        // Paper and black tie the days of two charts together.
        List<double[]> chosen = space switch
        {
            DeviceSpace.Grey => [[1], [0]],
            DeviceSpace.Rgb => [[1, 1, 1], [0, 0, 0]],
            _ => [[0, 0, 0, 0], [0, 0, 0, 1]],
        };
        chosen.ForEach(farthest.Note);
        while (chosen.Count < count)
        {
            chosen.Add(farthest.Next(unsure));
        }

        return chosen;
    }

    /// <summary>A test sheet to choose a media setting and an ink load by: ramps from paper to full ink, so that it shows where more
    /// ink turns lighter, runs or stands in pools; ends and solids twice, which tells the grain.</summary>
    /// <param name="space">Grey, RGB or CMYK.</param>
    /// <returns>32 to about a hundred device values.</returns>
    /// <exception cref="ArgumentException">The space is another.</exception>
    public static IReadOnlyList<double[]> Ramps(DeviceSpace space)
    {
        const int Long = 15;
        const int Short = 8;
        double[] bare = space switch
        {
            DeviceSpace.Grey => [1],
            DeviceSpace.Rgb => [1, 1, 1],
            DeviceSpace.Cmyk => [0, 0, 0, 0],
            _ => throw new ArgumentException("Test sheets are made for grey, RGB and CMYK.", nameof(space)),
        };
        double[][] full = space switch
        {
            DeviceSpace.Grey => [[0]],
            DeviceSpace.Rgb => [[0, 0, 0], [0, 1, 1], [1, 0, 1], [1, 1, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]],
            _ => [[0, 0, 0, 1], [1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 1, 1, 0], [1, 0, 1, 0], [1, 1, 0, 0], [1, 1, 1, 0]],
        };
        List<double[]> all = [bare, .. full, bare, .. full];
        foreach (var end in full)
        {
            var steps = end == full[0] ? space is DeviceSpace.Grey ? 2 * Long : Long : Short;
            all.AddRange(Enumerable.Range(1, steps).Select(i => (double[])[.. bare.Zip(end, (from, to) => Level(from + ((to - from) * i / (steps + 1.0))))]));
        }

        return all;
    }

    /// <summary>A control strip: patches of a condition's own chart, so that each is compared with its own reference reading.</summary>
    /// <param name="chart">The chart as read.</param>
    /// <param name="count">24 to 48.</param>
    /// <returns>Paper, black and the chart's greys first, then its patches as far apart as can be.</returns>
    /// <exception cref="ArgumentException">The count is out of range, or the chart has fewer patches.</exception>
    public static IReadOnlyList<double[]> Strip(MeasurementSet chart, int count)
    {
        var all = chart.Averaged().Select(p => p.Device.ToArray()).ToArray();
        if (count is < 24 or > 48 || all.Length < count)
        {
            throw new ArgumentException($"A control strip has 24 to 48 patches of a chart, and this one has {all.Length}.", nameof(count));
        }

        var inks = chart.Space is DeviceSpace.Cmyk;
        var farthest = new FarthestPoint(all, inks);
        var ends = all.Where(d => d.All(v => v is 0 or 1) && (!inks || d.Sum() <= 2)).Take(10);
        var greys = all.Where(d => d.Distinct().Count() == 1 && d[0] is not (0 or 1)).OrderBy(d => d[0]).ToArray();
        List<double[]> chosen = [.. ends, .. Spread(greys, count / 5)];
        chosen.ForEach(farthest.Note);
        while (chosen.Count < count)
        {
            chosen.Add(farthest.Next());
        }

        return chosen;
    }

    private static void Fill(List<double[]> chosen, DeviceSpace space, int count, double inkLimit)
    {
        var candidates = CandidatesOf(space, inkLimit);
        if (space is DeviceSpace.Rgb && count <= Small)
        {
            var least = new LeastDoubt([.. Distinct([.. chosen, .. candidates.Take(SmallCandidates)])]);
            chosen.ForEach(least.Note);
            while (chosen.Count < count)
            {
                chosen.Add(least.Next());
            }

            return;
        }

        var farthest = new FarthestPoint(candidates, space is DeviceSpace.Cmyk);
        chosen.ForEach(farthest.Note);
        while (chosen.Count < count)
        {
            chosen.Add(farthest.Next());
        }
    }

    private static void Check(int count)
    {
        if (count is < Fewest or > Most)
        {
            throw new ArgumentException($"A chart has {Fewest} to {Most} patches.", nameof(count));
        }
    }

    private static double Unsure(ILearntPrinter model, double[] device)
    {
        var lab = new double[3];
        model.Predict(device, lab);
        Colorimetry.Lab here = new(lab[0], lab[1], lab[2]);
        var sd = model.StandardDeviation(device);
        double Moved(double l, double a, double b) => CieDe2000.Between(here, new(here.L + l, here.A + a, here.B + b)).Value;
        var (l, a, b) = (Moved(sd.L, 0, 0), Moved(0, sd.A, 0), Moved(0, 0, sd.B));
        return Math.Sqrt((l * l) + (a * a) + (b * b));
    }

    private static List<double[]> Grey(int count) =>
        [.. Enumerable.Range(0, count).Select(i => (double[])[Level((double)i / (count - 1))])];

    private static List<double[]> RgbFixed(int count)
    {
        List<double[]> all = [[1, 1, 1], [0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1], [0, 1, 1], [1, 0, 1], [1, 1, 0]];
        var greys = Math.Clamp(count / 24, 3, 51);
        for (var i = 1; i <= greys; i++)
        {
            var v = (double)i / (greys + 1);
            all.Add([Level(v), Level(v), Level(v)]);
        }

        // Nearly grey, six ways round: three of the red, green, blue side and three of the other.
        for (var i = 0; i < Math.Min(count / 20, 60); i++)
        {
            var v = 0.12 + (0.8 * ((i * 0.618034) % 1));
            double[] near = [v, v, v];
            near[i % 3] += i / 3 % 2 == 0 ? 0.05 : -0.05;
            all.Add([.. near.Select(Level)]);
        }

        // Skin of all kinds, as RGB of common working spaces has it: common practice, no source.
        for (var i = 0; i < Math.Min(count / 25, 48); i++)
        {
            var (light, chroma, hue) = (0.28 + (0.66 * Halton(i + 1, 2)), 0.12 + (0.26 * Halton(i + 1, 3)), 0.35 + (0.35 * Halton(i + 1, 5)));
            all.Add([Level(light), Level(light - (chroma * hue)), Level(light - chroma)]);
        }

        return Distinct(all);
    }

    private static List<double[]> CmykFixed(int count, double limit)
    {
        List<double[]> all =
        [
            [0, 0, 0, 0], [0, 0, 0, 1], [1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [1, 1, 0, 0], [1, 0, 1, 0], [0, 1, 1, 0], [1, 1, 1, 0],
            [1, 0, 0, 1], [0, 1, 0, 1], [0, 0, 1, 1],
        ];
        var steps = Math.Clamp(count / 50, 3, 19);
        for (var i = 1; i <= steps; i++)
        {
            var v = (double)i / (steps + 1);
            for (var c = 0; c < 4; c++)
            {
                var ramp = new double[4];
                ramp[c] = Percent(v);
                all.Add(ramp);
            }

            all.Add([Percent(v), Percent(v * 0.88), Percent(v * 0.86), 0]); // about grey on most presses: common practice, no source
            all.Add([Percent(v * 0.7), Percent(v * 0.6), Percent(v * 0.6), Percent(v * v)]);
        }

        return Distinct([.. all.Where(d => d.Sum() <= limit)]);
    }

    private static double[][] CandidatesOf(DeviceSpace space, double limit)
    {
        var inks = space is DeviceSpace.Cmyk;
        var channels = inks ? 4 : 3;
        int[] bases = [2, 3, 5, 7];
        var random = new Random(Seed: 20261125);
        var all = new List<double[]>(Candidates);
        for (var i = 1; all.Count < Candidates; i++)
        {
            var device = Enumerable.Range(0, channels).Select(c => FarthestPoint.Unwarped(Halton(i, bases[c]), inks)).ToArray();
            // A third lie on the surface, where a gamut is made.
            if (i % 3 == 0)
            {
                device[random.Next(channels)] = random.Next(2);
            }

            device = [.. device.Select(v => inks ? Percent(v) : Level(v))];
            if (!inks || device.Sum() <= limit)
            {
                all.Add(device);
            }
        }

        return [.. Distinct(all)];
    }

    private static IEnumerable<double[]> Spread(double[][] all, int count) =>
        all.Length <= count ? all : Enumerable.Range(0, count).Select(i => all[i * (all.Length - 1) / (count - 1)]);

    private static List<double[]> Distinct(List<double[]> all) => [.. all.DistinctBy(d => string.Join(' ', d))];

    private static double Level(double v) => Math.Round(Math.Clamp(v, 0, 1) * 255) / 255;

    private static double Percent(double v) => Math.Round(Math.Clamp(v, 0, 1) * 100) / 100;

    // J. H. Halton, Numer. Math. 2, 84 (1960): fills a space evenly.
    private static double Halton(int index, int radix)
    {
        var (value, part) = (0.0, 1.0);
        for (; index > 0; index /= radix)
        {
            part /= radix;
            value += part * (index % radix);
        }

        return value;
    }
}

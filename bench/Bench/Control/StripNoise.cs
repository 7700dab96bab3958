using Goodsheet.Colour.Measurement;
using Goodsheet.Room.Control;

namespace Goodsheet.Bench.Control;

/// <summary>Strips of 24 patches when nothing has happened: noise of the day's readings, and of the days.</summary>
/// <remarks>
/// Within a day the same chart read twice differs by .18 dE00 on average, .35 at 95 % and .88 at most, so patches get
/// mostly small errors and now and then a large one. From day to day, patches get the differences of two real charts
/// of one paper, drawn with a sign by chance and over √2; their mean is common to the strip.
/// </remarks>
internal sealed class StripNoise
{
    public const string Folder = "../shared/data/measurements/rgb-inkjet";
    private const int Patches = 24;
    private const double Small = 0.105; // standard deviations of an axis, dE*ab
    private const double Large = 0.24;
    private const double LargeOf = 0.06;

    private readonly LabShift[] days;
    private readonly LabShift common;

    public StripNoise(string folder)
    {
        if (Directory.Exists(folder))
        {
            MeasurementSet Read(string file) => MeasurementFile.Read(File.ReadAllBytes($"{folder}/{file}.txt")).Set!;
            var first = Read("matte_A_2420_M0").Averaged().ToDictionary(p => string.Join(' ', p.Device), p => p.Lab);
            LabShift[] moved = [.. Read("matte_C1_1019_M0").Averaged().Where(p => first.ContainsKey(string.Join(' ', p.Device)))
                .Select(p => (p.Lab, Was: first[string.Join(' ', p.Device)])).Select(p => new LabShift(p.Lab.L - p.Was.L, p.Lab.A - p.Was.A, p.Lab.B - p.Was.B))];
            common = (1.0 / moved.Length) * moved.Aggregate((x, y) => x + y);
            days = [.. moved.Select(m => m - common)];
            Told = $"day to day by {moved.Length} patches that two real charts share";
        }
        else
        {
            common = new(-0.08, 0, -0.15);
            days = [];
            Told = $"{folder} is not here: day to day by the standard deviations that are usual instead";
        }

        var random = new Random(2);
        double[] sizes = [.. Enumerable.Range(0, 100_000).Select(_ => Within(random).Size).Order()];
        Told += $"; within a day {sizes.Average():0.00} / {sizes[95_000]:0.00} / {sizes[99_850]:0.00} (mean, 95 %, largest of 680)";
    }

    public string Told { get; }

    public (LabShift Centre, double Shape) Next(Random random)
    {
        var half = Math.Sqrt(0.5);
        // The one pair of days gives a direction; days differ in the other ways too, by half as much.
        var day = ((half * Normal(random)) * common) + (0.5 * half * common.Size * new LabShift(Normal(random), Normal(random), Normal(random)));
        var shifts = new LabShift[Patches];
        for (var i = 0; i < Patches; i++)
        {
            var patch = days.Length > 0 ? ((random.Next(2) == 0 ? half : -half) * days[random.Next(days.Length)])
                : new(0.10 * Normal(random), 0.34 * Normal(random), 0.22 * Normal(random));
            shifts[i] = day + patch + Within(random);
        }

        var strip = StripShift.Of(shifts, HouseNoise.Usual);
        return (strip.Centre, strip.Shape);
    }

    public HouseNoise Learn(Random random, int strips) =>
        HouseNoise.Learn(HouseNoise.Usual, 1, [.. Enumerable.Range(0, strips).Select(_ => Next(random).Centre)]);

    public static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static LabShift Within(Random random)
    {
        var sd = random.NextDouble() < LargeOf ? Large : Small;
        return new(sd * Normal(random), sd * Normal(random), sd * Normal(random));
    }
}

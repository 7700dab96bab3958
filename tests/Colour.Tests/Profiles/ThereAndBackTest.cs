using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests.Profiles;

/// <summary>Device to colour to device to colour through finished profiles of three channels, by Little CMS 2 (the reference engine).</summary>
/// <remarks>The goals that were set for measured charts, which the bench topic <c>profile</c> judges: mean, 95th percentile and
/// largest dE00. Those charts may not be copied, so invented conditions stand in for them, one of which does what the measured
/// ones do hard by full ink.</remarks>
public class ThereAndBackTest
{
    private const int Trips = 20_000;

    private static readonly (double Mean, double P95, double Largest) Inside = (0.05, 0.15, 0.8);
    private static readonly (double Mean, double P95, double Largest) OnSurface = (0.07, 0.20, 1.7);

    public static TheoryData<string, IPrinterModel> Conditions => new()
    {
        { "gloss", InventedConditions.Gloss() },
        { "matte", InventedConditions.Matte() },
        { "gloss that folds", new Folding(InventedConditions.Gloss()) },
    };

    [Theory]
    [MemberData(nameof(Conditions), DisableDiscoveryEnumeration = true)]
    public void Colours_come_back_as_they_went(string name, IPrinterModel printer)
    {
        var made = ProfileMaker.Make(
            printer, new() { Name = name, Created = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero) }, cancel: TestContext.Current.CancellationToken).File;
        Within(Inside, Errors(made, Devices(surface: false)));
        Within(OnSurface, Errors(made, Devices(surface: true)));
    }

    [Fact]
    public void Only_one_side_of_a_fold_is_fitted()
    {
        // Lightness by red, a* by green, b* by blue; over its first quarter green leads back.
        const int nodes = 33;
        const double fold = 8 / 32.0;
        double[] lab = [.. Enumerable.Range(0, nodes * nodes * nodes).SelectMany(i => (double[])
            [100.0 * (i / nodes / nodes) / (nodes - 1), 100 * Math.Abs((i / nodes % nodes / (nodes - 1.0)) - fold), -100.0 * (i % nodes) / (nodes - 1)])];
        DeviceLattice lattice = new([nodes, nodes, nodes], lab);
        var known = KnownColours.Of(lattice, new(lattice, inkLimit: 4));
        Assert.All(Enumerable.Range(0, known.Colours.Length).Where(i => Math.Abs(known.Device[(3 * i) + 1] - fold) > 0.01), i =>
            Assert.Equal(known.Device[(3 * i) + 1] > fold, known.Weights[3 * i] > 0));
    }

    private static void Within((double Mean, double P95, double Largest) goal, double[] errors)
    {
        Assert.InRange(errors.Average(), 0, goal.Mean);
        Assert.InRange(errors[(int)(errors.Length * .95)], 0, goal.P95);
        Assert.InRange(errors[^1], 0, goal.Largest);
    }

    private static double[] Errors(byte[] profile, double[] device)
    {
        var lab = Lcms.ToLab(device, profile, RenderingIntent.RelativeColorimetric);
        var again = Lcms.ToLab(Lcms.FromLab(lab, profile, RenderingIntent.RelativeColorimetric), profile, RenderingIntent.RelativeColorimetric);
        return [.. Enumerable.Range(0, Trips).Select(i => CieDe2000.Between(At(lab, i), At(again, i)).Value).Order()];
    }

    private static double[] Devices(bool surface)
    {
        var random = new Random(5);
        double[] device = [.. Enumerable.Range(0, Trips * 3).Select(_ => 0.04 + (0.92 * random.NextDouble()))];
        for (var i = 0; surface && i < Trips; i++)
        {
            device[(3 * i) + (i % 3)] = i / 3 % 2;
        }

        return device;
    }

    private static Lab At(double[] rows, int i) => new(rows[3 * i], rows[(3 * i) + 1], rows[(3 * i) + 2]);

    /// <summary>A printer on which the last of one ink leads back: beyond eight levels from full ink, more of it prints what less of it prints.</summary>
    /// <remarks>By as much as a measured gloss does: docs/decisions/0407.</remarks>
    private sealed class Folding(IPrinterModel printer) : IPrinterModel
    {
        private const double From = 8 / 255.0;
        private const double Back = 0.7;

        public int Channels => printer.Channels;

        public void Predict(ReadOnlySpan<double> device, Span<double> lab)
        {
            var folded = device.ToArray();
            for (var green = 1; green < folded.Length; green += 3)
            {
                folded[green] = Math.Max(folded[green], From + (Back * (From - folded[green])));
            }

            printer.Predict(folded, lab);
        }
    }
}

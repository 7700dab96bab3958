using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Printer;

/// <summary>Models learnt from an invented printer without noise, and from one published printing condition.</summary>
public class PrinterModelsTest
{
    // An invented printer is smoother than a real one: a seventh-step grid should leave next to nothing.
    private const double OfInventedRgb = 0.3;

    // To be reached on FOGRA39; 0.11 was seen.
    private const double OfFogra39 = 0.2;

    [Fact]
    public void An_RGB_printer_is_foretold_between_its_patches()
    {
        var model = Fit([Grid(3, 7)]);
        Assert.InRange(Errors(model, Scattered(3, 300)).Average(), 0, OfInventedRgb);
    }

    [Fact]
    public void A_grey_printer_is_foretold_and_rises_all_the_way()
    {
        var model = Fit([Grid(1, 21)]);
        Assert.InRange(Errors(model, Scattered(1, 100)).Max(), 0, 0.5);
        var lab = new double[256 * 3];
        model.Predict([.. Enumerable.Range(0, 256).Select(i => i / 255.0)], lab);
        Assert.All(Enumerable.Range(1, 255), i => Assert.True(lab[3 * i] > lab[3 * (i - 1)], $"step {i}"));
    }

    /// <summary>Characterization data FOGRA39L, published by Fogra.</summary>
    [Fact]
    public void Half_of_FOGRA39_foretells_the_other_half()
    {
        using var stream = typeof(PrinterModelsTest).Assembly.GetManifestResourceStream("FOGRA39L.txt")!;
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        var set = MeasurementFile.Read(copy.ToArray()).Set!;
        Assert.Equal(1617, set.Patches.Length);
        var patches = set.Averaged();
        var model = Fit([set with { Patches = [.. patches.Where((_, i) => i % 2 == 0).Select((p, i) => new Patch($"{i}", p.Device, p.Lab))] }]);
        var errors = Errors(model, [.. patches.Where((_, i) => i % 2 == 1).Select(p => (p.Device.ToArray(), p.Lab))]);
        Assert.InRange(errors.Average(), 0, OfFogra39);
    }

    [Fact]
    public void A_batch_is_foretold_as_one_by_one()
    {
        var model = Fit([Grid(3, 4)]);
        double[] device = [.. Scattered(3, 200).SelectMany(s => s.Device)];
        var batch = new double[device.Length];
        model.Predict(device, batch);
        var one = new double[3];
        for (var i = 0; i < 200; i++)
        {
            model.Predict(device.AsSpan(3 * i, 3), one);
            Assert.Equal(one, batch[(3 * i)..((3 * i) + 3)]);
        }
    }

    [Fact]
    public void The_order_of_the_patches_changes_nothing_that_shows()
    {
        var grid = Grid(3, 5);
        var shuffled = grid.Patches.ToArray();
        new Random(2).Shuffle(shuffled);
        var (first, second) = (new double[300], new double[300]);
        double[] device = [.. Scattered(3, 100).SelectMany(s => s.Device)];
        Fit([grid]).Predict(device, first);
        Fit([grid with { Patches = [.. shuffled] }]).Predict(device, second);
        Assert.All(first.Zip(second), p => Assert.Equal(p.First, p.Second, 1e-7));
    }

    [Fact]
    public void Leaving_one_out_in_closed_form_is_fitting_again_without_it()
    {
        // Small enough to refit each time; mean, spread and noise of the whole chart stay in the closed form, hence the tolerance.
        var grid = Grid(3, 4);
        var closed = PrinterModels.LeaveOneOut([grid], TestContext.Current.CancellationToken);
        foreach (var i in (int[])[0, 21, 42, 63])
        {
            var model = Fit([grid with { Patches = grid.Patches.RemoveAt(i) }]);
            var error = Errors(model, [(grid.Patches[i].Device.ToArray(), grid.Patches[i].Lab)])[0];
            Assert.InRange(closed[i].Value / error, 0.8, 1.25);
        }
    }

    [Fact]
    public void Charts_of_two_days_are_merged_and_each_day_keeps_its_own_shift()
    {
        var monday = Grid(3, 5);
        var friday = monday with { Patches = [.. monday.Patches.Select(p => p with { Lab = p.Lab with { L = p.Lab.L + 0.6 } })] };
        var model = (RgbPrinterModel)Fit([monday, friday]);
        double[] device = [.. Scattered(3, 50).SelectMany(s => s.Device)];
        var (first, second) = (new double[150], new double[150]);
        model.OnDayOf(0).Predict(device, first);
        model.OnDayOf(1).Predict(device, second);
        var shift = first.Chunk(3).Zip(second.Chunk(3)).Average(p => p.Second[0] - p.First[0]);
        Assert.InRange(shift, 0.4, 0.65);
    }

    [Fact]
    public void A_new_paper_is_learnt_from_few_patches_and_a_paper_that_is_known()
    {
        var matte = InventedConditions.Matte();
        MeasurementSet few = new(DeviceSpace.Rgb, 3, MCondition.M0, [.. Scattered(3, 32).Select((s, i) => new Patch($"{i}", [.. s.Device], Printed(matte, s.Device)))]);
        (double[] Device, Lab Lab)[] judge = [.. Scattered(3, 300).Skip(32).Select(s => (s.Device, Printed(matte, s.Device)))];
        var alone = Errors(Fit([few]), judge).Average();
        var helped = Errors(PrinterModels.FitFromKnown([few], [Grid(3, 7)], cancel: TestContext.Current.CancellationToken), judge).Average();
        Assert.True(helped < 0.8 * alone, $"{helped:0.00} with a known paper, {alone:0.00} without");

        // Leaving one out answers for the new paper alone, and is helped as well.
        var foretold = PrinterModels.Foretold([few], [Grid(3, 7)], TestContext.Current.CancellationToken);
        Assert.Equal(few.Averaged().Length, foretold.Count);
        var left = few.Averaged().Zip(foretold, (p, f) => CieDe2000.Between(p.Lab, f).Value).Average();
        Assert.True(left < PrinterModels.LeaveOneOut([few], TestContext.Current.CancellationToken).Average(d => d.Value), $"{left:0.00}");
    }

    [Fact]
    public void It_is_surer_at_a_patch_than_between_patches()
    {
        var model = (RgbPrinterModel)Fit([Grid(3, 4)]);
        Assert.True(model.StandardDeviation([1 / 3.0, 2 / 3.0, 1]).L < model.StandardDeviation([0.5, 0.5, 0.85]).L);
    }

    [Fact]
    public void Charts_that_do_not_belong_together_are_refused()
    {
        Assert.Throws<ArgumentException>(() => Fit([]));
        Assert.Throws<ArgumentException>(() => Fit([Grid(3, 3), Grid(1, 9)]));
        Assert.Throws<ArgumentException>(() => Fit([Grid(1, 7)]));
        Assert.NotNull(Fit([Grid(1, 8)]));
    }

    [Fact]
    public void It_stops_when_told() =>
        Assert.ThrowsAny<OperationCanceledException>(() => PrinterModels.Fit([Grid(3, 3)], cancel: new CancellationToken(true)));

    private static IPrinterModel Fit(MeasurementSet[] charts) => PrinterModels.Fit(charts, cancel: TestContext.Current.CancellationToken);

    private static MeasurementSet Grid(int channels, int steps)
    {
        var rows = Enumerable.Range(0, (int)Math.Pow(steps, channels)).Select(i =>
            Enumerable.Range(0, channels).Select(c => i / (int)Math.Pow(steps, c) % steps / (steps - 1.0)).ToArray()).ToArray();
        var space = channels == 1 ? DeviceSpace.Grey : DeviceSpace.Rgb;
        return new(space, channels, MCondition.M1, [.. rows.Select((r, i) => new Patch($"{i}", [.. r], Truth(r)))]);
    }

    private static (double[] Device, Lab Lab)[] Scattered(int channels, int count)
    {
        var random = new Random(11);
        return [.. Enumerable.Range(0, count).Select(_ =>
        {
            var device = Enumerable.Range(0, channels).Select(_ => random.NextDouble()).ToArray();
            return (device, Truth(device));
        })];
    }

    private static Lab Truth(double[] device)
    {
        var lab = new double[3];
        InventedConditions.Gloss(device.Length).Predict(device, lab);
        return new(lab[0], lab[1], lab[2]);
    }

    private static double[] Errors(IPrinterModel model, (double[] Device, Lab Lab)[] judged)
    {
        var lab = new double[judged.Length * 3];
        model.Predict([.. judged.SelectMany(j => j.Device)], lab);
        return [.. judged.Select((j, i) => CieDe2000.Between(j.Lab, new(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2])).Value)];
    }

    private static Lab Printed(NeugebauerPrinter printer, double[] device)
    {
        var lab = new double[3];
        printer.Predict(device, lab);
        return new(lab[0], lab[1], lab[2]);
    }
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Printer;

/// <summary>How far the curves of a printer's driver err: worked by hand where the surface is known, and errors planted in an invented printer.</summary>
public class DriverCurvesTest
{
    private static readonly RgbForm Form = new();

    [Fact]
    public void A_level_of_error_moves_the_colour_as_its_channel_does()
    {
        // The first output is the warped red, the second the product of warped green and blue, the third nothing.
        double[][] device = [.. Enumerable.Range(0, 216).Select(i => (double[])[i / 36 / 5.0, i / 6 % 6 / 5.0, i % 6 / 5.0])];
        double[][] outputs =
        [
            [.. device.Select(d => RgbForm.Warped(d[0]))],
            [.. device.Select(d => RgbForm.Warped(d[1]) * RgbForm.Warped(d[2]))],
            new double[device.Length],
        ];
        var curves = new DriverCurves(Form, device, outputs, 10);
        var (node, moves) = (new int[DriverCurves.Shares], new double[3 * DriverCurves.Shares]);
        curves.At([20 / 255.0, 130 / 255.0, 1], node, moves);

        // Level 20 lies half-way between 16 and 24; 130 a quarter past 128; 255 seven eighths past 248.
        Assert.Equal([2, 3, 33 + 16, 33 + 17, 66 + 31, 66 + 32], node);
        var red = (RgbForm.Warped(22 / 255.0) - RgbForm.Warped(18 / 255.0)) / 4;
        Assert.Equal(red / 2, moves[0], 1e-5);
        Assert.Equal(red / 2, moves[1], 1e-5);
        var green = (RgbForm.Warped(132 / 255.0) - RgbForm.Warped(128 / 255.0)) / 4 * RgbForm.Warped(1);
        Assert.Equal(0.75 * green, moves[8], 1e-5);
        Assert.Equal(0.25 * green, moves[9], 1e-5);
        var blue = (RgbForm.Warped(1) - RgbForm.Warped(253 / 255.0)) / 2 * RgbForm.Warped(130 / 255.0);
        Assert.Equal(blue / 8, moves[10], 1e-5);
        Assert.All(moves[12..], m => Assert.Equal(0, m, 1e-9));
        Assert.Equal(0, moves[2], 1e-5);
    }

    [Fact]
    public void The_greys_take_no_part()
    {
        double[][] device = [.. Enumerable.Range(0, 27).Select(i => (double[])[i / 9 / 2.0, i / 3 % 3 / 2.0, i % 3 / 2.0])];
        double[] outputs = [.. device.Select(d => d[0] + d[1])];
        var moves = new double[3 * DriverCurves.Shares];
        new DriverCurves(Form, device, [outputs, outputs, outputs], 10).At([0.4, 0.4, 0.4], new int[DriverCurves.Shares], moves);
        Assert.All(moves, m => Assert.Equal(0, m));
    }

    [Fact]
    public void An_error_of_one_node_is_found_where_other_channels_were_never_tried_with_it()
    {
        // Red is off by 8 levels at 96, and by half of it 4 levels away. Patches tell of it where there is little green.
        var random = new Random(8);
        double[][] device = [.. Enumerable.Range(0, 500).Select(_ => (double[])[random.Next(256) / 255.0, random.Next(256) / 255.0, random.Next(256) / 255.0])];
        double[][] telling = [.. Enumerable.Range(0, 100).Select(_ => (double[])[96 / 255.0, random.Next(100) / 255.0, random.Next(256) / 255.0])];
        double[][] learnt = [.. device.Where(d => Math.Abs((d[0] * 255) - 96) > 8 || d[1] < 0.4), .. telling];
        double[][] judged = [.. Enumerable.Range(0, 40).Select(i => (double[])[96 / 255.0, 0.5 + (i / 8 * 0.1), i % 8 / 7.0])];

        // A model without curves misses all of it (2.46 of 2.47 in a computation in numpy). This error is eleven times what is
        // expected of a driver, so the model believes a part of it alone: about a fifth, where it never saw it.
        var moved = judged.Average(d => Away(Printed(d, 0), Printed(d, 8)));
        Assert.InRange(moved, 2, 3);
        Assert.InRange(Errors(learnt, judged, 0), 0, 0.05);
        Assert.InRange(Errors(learnt, judged, 8), 0, 0.85 * moved);
    }

    private static double Errors(double[][] learnt, double[][] judged, double levels)
    {
        var model = PrinterModels.Fit([new MeasurementSet(DeviceSpace.Rgb, 3, MCondition.Unknown, [.. learnt.Select((d, i) => new Patch($"{i}", [.. d], Printed(d, levels), null))])],
            cancel: TestContext.Current.CancellationToken);
        return judged.Average(d =>
        {
            var lab = new double[3];
            model.Predict(d, lab);
            return Away(Printed(d, levels), new(lab[0], lab[1], lab[2]));
        });
    }

    private static double Away(Lab one, Lab other) => Math.Sqrt(Math.Pow(one.L - other.L, 2) + Math.Pow(one.A - other.A, 2) + Math.Pow(one.B - other.B, 2));

    // An invented printer: smooth in its channels, but for the red curve.
    private static Lab Printed(double[] d, double levels)
    {
        var near = Math.Max(0, 1 - (Math.Abs((d[0] * 255) - 96) / 8));
        var (r, g, b) = (d[0] + (levels * near / 255), d[1], d[2]);
        return new(15 + (80 * ((0.25 * r) + (0.6 * g) + (0.15 * b))), 70 * (r - g), 60 * (((r + g) / 2) - b));
    }
}

using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Tests.Conversion;

/// <summary>The steps of a conversion in the vectors of this machine, beside the same step pixel by pixel or in double precision.</summary>
public class PixelStepTest
{
    // Single precision holds 24 bits: half of the last one, and as much again where a sum comes to lie beside the middle of two.
    private const double OneRounding = 1.0 / (1 << 24);
    private const double OfARoot = 1e-11;

    public static TheoryData<int[], int, bool> Tables() => new(
        from grid in (int[][])[[2, 2, 2], [17, 17, 17], [5, 9, 3], [33, 33, 33], [255, 2, 31]]
        from outputs in (int[])[1, 3, 4]
        from corners in (bool[])[false, true]
        select (grid, outputs, corners));

    [Theory]
    [MemberData(nameof(Tables))]
    public void Tables_give_the_same_codes_eight_pixels_at_a_time_as_one(int[] grid, int outputs, bool corners)
    {
        var random = new Random(20261126);
        var nodes = new ushort[Clut.CountNodes(grid)!.Value * outputs];
        for (var i = 0; i < nodes.Length; i++)
        {
            nodes[i] = (ushort)(random.Next(4) == 0 ? random.Next(2) * ushort.MaxValue : random.Next(65_536)); // the steepest table there can be
        }

        var (table, how) = (new Clut(grid, outputs, nodes), corners ? Interpolation.Multilinear : Interpolation.Tetrahedral);
        Same(new ClutStep(table, how), new ClutStep(table, how, narrow: true), outputs, (channel, i) => (i % 6) switch
        {
            0 => random.Next(2) * 65_535,
            1 => Math.Clamp((random.Next(grid[channel]) * 65_535 / (grid[channel] - 1)) + random.Next(-1, 2), 0, 65_535), // beside the nodes
            2 => 40_000,
            3 => 65_535 - random.Next(3),
            _ => random.Next(65_536),
        }, 20_000);
    }

    // Beside the steepest step that is read in 16 bits, and one beyond it, which is not.
    [Theory]
    [InlineData(0, GentleClut.MostStep, true)]
    [InlineData(20_000, GentleClut.MostStep, true)]
    [InlineData(33_534, GentleClut.MostStep, true)]
    [InlineData(33_534, GentleClut.MostStep + 1, false)]
    public void Tables_without_steep_steps_give_the_same_codes_in_16_bits(int lowest, int step, bool gentle)
    {
        foreach (var grid in (int[][])[[2, 2, 2], [17, 17, 17], [5, 9, 3], [33, 33, 33], [255, 2, 31]])
        {
            foreach (var outputs in (int[])[1, 3, 4])
            {
                var random = new Random(20261201);
                var nodes = new ushort[Clut.CountNodes(grid)!.Value * outputs];
                for (var i = 0; i < nodes.Length; i++)
                {
                    nodes[i] = (ushort)(lowest + (random.Next(4) == 0 ? random.Next(2) * GentleClut.MostStep : random.Next(GentleClut.MostStep + 1)));
                }

                (nodes[0], nodes[outputs]) = ((ushort)lowest, (ushort)(lowest + step));
                var table = new Clut(grid, outputs, nodes);
                Assert.Equal(gentle, GentleClut.IsGentle(table));
                Same(new ClutStep(table, Interpolation.Multilinear), new ClutStep(table, Interpolation.Multilinear, narrow: true), outputs, (channel, i) => (i % 6) switch
                {
                    0 => random.Next(2) * 65_535,
                    1 => Math.Clamp((random.Next(grid[channel]) * 65_535 / (grid[channel] - 1)) + random.Next(-1, 2), 0, 65_535),
                    2 => random.Next(65_535 / (grid[channel] - 1)), // in the first cell, which has the steep step
                    3 => 65_535 - random.Next(3),
                    _ => random.Next(65_536),
                }, 20_000);
            }
        }
    }

    [Fact]
    public void A_matrix_and_a_scale_in_one_go_give_the_same_values_as_one_after_the_other()
    {
        var (matrix, scale) = (
            new AffineStep([[0.4, 0.35, 0.14], [0.21, 0.71, 0.06], [0.01, 0.1, 0.78]], [0, 0.001, -0.002]),
            new AffineStep([[0.99, 0, 0], [0, 1.01, 0], [0, 0, 0.98]], [0.003, 0.004, 0.005]));
        Assert.True(matrix.TakesScale && scale.IsScale && !scale.TakesScale && !matrix.With(scale).TakesScale);
        var random = new Random(20261202);
        var (one, other) = (new PixelPlanes { Count = PixelPlanes.Most }, new PixelPlanes { Count = PixelPlanes.Most });
        for (var k = 0; k < 3; k++)
        {
            for (var i = 0; i < PixelPlanes.Most; i++)
            {
                one.Values[k][i] = other.Values[k][i] = random.NextSingle();
            }
        }

        matrix.Apply(one);
        scale.Apply(one);
        matrix.With(scale).Apply(other);
        Assert.Equal(one.Values[..3], other.Values[..3]);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(PixelPlanes.Most)]
    public void Pixels_taken_in_as_values_are_as_those_that_were_codes_first(int count)
    {
        var random = new Random(20261203);
        var step = new ValueTableStep([.. Enumerable.Range(1, 3).Select(n => ValueTableStep.Plain.Select(v => v / n).ToArray())]);
        var pixels = Enumerable.Range(0, 3 * count).Select(_ => (ushort)random.Next(65_536)).ToArray();
        var (one, other) = (new PixelPlanes(), new PixelPlanes());
        one.Take(pixels, 3);
        step.Apply(one);
        step.Take(pixels, other);
        Assert.Equal((one.Count, other.Count), (count, count));
        for (var k = 0; k < 3; k++)
        {
            Assert.Equal(one.Values[k][..count], other.Values[k][..count]);
        }
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(257)]
    [InlineData(4_081)]
    [InlineData(8_191)]
    [InlineData(8_192)]
    [InlineData(65_536)]
    public void Curves_give_the_same_codes_read_between_entries_as_by_a_table_of_all_codes(int entries)
    {
        var random = new Random(20261127);
        SampledCurve[] curves =
        [
            new([.. Enumerable.Range(0, entries).Select(_ => (ushort)random.Next(65_536))]),
            SampledCurve.Of(entries, x => x * x),
            new([.. Enumerable.Range(0, entries).Select(i => (ushort)(i % 2 * 65_535))]),
        ];
        Same(new CodeTableStep(curves), new CodeTableStep(curves, narrow: true), 3, (_, i) => i, 65_536);
    }

    [Fact]
    public void A_curve_that_changes_nothing_changes_nothing()
    {
        SampledCurve[] curves = [new([0, 65_535]), SampledCurve.Of(4_097, x => x), new([65_535, 0])];
        Same(new CodeTableStep(curves), new CodeTableStep(curves, narrow: true), 3, (_, i) => i, 65_536);
    }

    [Fact]
    public void Values_are_rounded_to_the_same_codes_whatever_they_are()
    {
        var random = new Random(20261128);
        float[] odd = [0, 1, -0.0f, float.NaN, float.PositiveInfinity, float.NegativeInfinity, float.MaxValue, float.MinValue, float.Epsilon, 1.00001f, -1e-6f, 0.99999f];
        var (wide, narrow) = (new RoundStep(1), new RoundStep(1, narrow: true));
        var (a, b) = (new PixelPlanes(), new PixelPlanes());
        for (var start = 0; start < 200_000; start += PixelPlanes.Most)
        {
            (a.Count, b.Count) = (PixelPlanes.Most, PixelPlanes.Most);
            for (var i = 0; i < PixelPlanes.Most; i++)
            {
                // Halves of codes and what lies beside them, and anything.
                var value = (i % 4) switch
                {
                    0 => (float)((random.Next(65_536) + 0.5) / 65_535),
                    1 => (float)((random.Next(65_536) + 0.5 + ((random.NextDouble() - 0.5) / 10_000)) / 65_535),
                    2 => odd[random.Next(odd.Length)],
                    _ => (float)((random.NextDouble() * 1.2) - 0.1),
                };
                (a.Values[0][i], b.Values[0][i]) = (value, value);
            }

            wide.Apply(a);
            narrow.Apply(b);
            Assert.Equal(b.Codes[0], a.Codes[0]);
            Assert.Equal([.. b.Values[0].Select(RoundStep.Code)], a.Codes[0]);
        }
    }

    [Fact]
    public void Colours_are_as_in_double_precision_to_the_last_bit_of_single()
    {
        var random = new Random(20261129);
        var (step, planes) = (new XyzToLabStep(), new PixelPlanes { Count = PixelPlanes.Most });
        Span<double> lab = stackalloc double[3];
        for (var turn = 0; turn < 100; turn++)
        {
            // Over all magnitudes, near the knee of the curve and beside zero.
            var xyz = Enumerable.Range(0, 3).Select(_ => Enumerable.Range(0, PixelPlanes.Most).Select(i => (float)((i % 5) switch
            {
                0 => Math.Pow(10, -8 * random.NextDouble()),
                1 => 0.008856 / PixelSteps.MostXyz * (0.999 + (0.002 * random.NextDouble())),
                2 => i % 10 == 2 ? 0 : -random.NextDouble() / 100,
                _ => random.NextDouble(),
            })).ToArray()).ToArray();
            for (var k = 0; k < 3; k++)
            {
                xyz[k].CopyTo(planes.Values[k], 0);
            }

            step.Apply(planes);
            for (var i = 0; i < PixelPlanes.Most; i++)
            {
                PcsStage.ToLab([xyz[0][i] * PixelSteps.MostXyz, xyz[1][i] * PixelSteps.MostXyz, xyz[2][i] * PixelSteps.MostXyz], lab);
                Near(lab[0] / 100, planes.Values[0][i]);
                Near((lab[1] + 128) / 255, planes.Values[1][i]);
                Near((lab[2] + 128) / 255, planes.Values[2][i]);
            }
        }

        static void Near(double exact, float seen) => Assert.InRange(seen - exact, -OneRounding * Math.Max(1, Math.Abs(exact)), OneRounding * Math.Max(1, Math.Abs(exact)));
    }

    [Fact]
    public void Cube_roots_are_near_enough_to_be_rounded_as_the_exact_ones()
    {
        for (var x = 1e-6; x < 4; x *= 1.00007)
        {
            var (most, rest) = ((float)x, (float)(x - (float)x));
            var root = XyzToLabStep.CubeRoot(System.Runtime.Intrinsics.Vector256.Create(most), System.Runtime.Intrinsics.Vector256.Create(rest), out var more);
            Assert.Equal(1, ((double)root[0] + more[0]) / Math.Cbrt((double)most + rest), OfARoot);
        }
    }

    [Fact]
    public void A_scale_for_each_channel_is_the_matrix_it_is()
    {
        double[][] rows = [[0.9, 0, 0], [0, 1.25, 0], [0, 0, 1 / 3.0]];
        double[] offset = [0.125, -0.01, 1e-7];
        var random = new Random(20261130);
        var planes = new PixelPlanes { Count = PixelPlanes.Most };
        var before = planes.Values.Take(3).Select(p => p.Select((_, i) => p[i] = random.NextSingle()).ToArray()).ToArray();
        new AffineStep(rows, offset).Apply(planes);
        for (var k = 0; k < 3; k++)
        {
            for (var i = 0; i < PixelPlanes.Most; i++)
            {
                Assert.Equal((float)Math.FusedMultiplyAdd(before[k][i], rows[k][k], offset[k]), planes.Values[k][i]);
            }
        }
    }

    // Any number of pixels; what lies behind the last one is left over from before.
    private static void Same(PixelStep wide, PixelStep narrow, int outputs, Func<int, int, int> code, int count)
    {
        var (a, b) = (new PixelPlanes(), new PixelPlanes());
        for (int start = 0, some = 1; start < count; start += some, some = Math.Min(some + 37, PixelPlanes.Most))
        {
            (a.Count, b.Count) = (Math.Min(some, count - start), Math.Min(some, count - start));
            for (var k = 0; k < 3; k++)
            {
                for (var i = 0; i < a.Count; i++)
                {
                    a.Codes[k][i] = (ushort)code(k, start + i);
                    b.Codes[k][i] = a.Codes[k][i];
                }
            }

            wide.Apply(a);
            narrow.Apply(b);
            for (var k = 0; k < outputs; k++)
            {
                Assert.True(b.Codes[k].AsSpan(0, b.Count).SequenceEqual(a.Codes[k].AsSpan(0, a.Count)), $"channel {k}, pixels from {start}");
            }
        }
    }
}

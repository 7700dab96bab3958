using Goodsheet.Colour.Conversion;

namespace Goodsheet.Colour.Tests.Conversion;

/// <summary>The fast kernel beside interpolation in double precision and beside itself without vectors.</summary>
public class TetrahedralKernelTest
{
    private const int OneCode = 1;                  // of 65535: rounding of single precision at most

    [Theory]
    [InlineData(2)]
    [InlineData(17)]
    [InlineData(33)]
    [InlineData(65)]
    public void Is_within_a_code_of_double_precision_wide_and_narrow(int points)
    {
        var (table, nodes) = Rough(points);
        var source = Pixels(20_000, points);
        var (wide, narrow) = (new ushort[source.Length], new ushort[source.Length]);
        TetrahedralKernel.Convert(table, source, wide);
        TetrahedralKernel.ConvertNarrow(table, source, narrow);

        var exact = new double[3];
        for (var i = 0; i < source.Length; i += 3)
        {
            Exact(nodes, points, source.AsSpan(i, 3), exact);
            for (var k = 0; k < 3; k++)
            {
                Assert.InRange(wide[i + k] - exact[k], -OneCode, OneCode);
                Assert.InRange(narrow[i + k] - exact[k], -OneCode, OneCode);
            }
        }
    }

    [Fact]
    public void Any_length_at_any_alignment_gives_the_same_and_writes_nothing_else()
    {
        var (table, _) = Rough(9);
        var source = Pixels(80, 9);
        var whole = new ushort[source.Length];
        TetrahedralKernel.ConvertNarrow(table, source, whole);
        for (var from = 0; from < 12; from++)
        {
            for (var count = 0; count <= 40; count++)
            {
                var room = new ushort[(from + count + 8) * 3];
                Array.Fill(room, (ushort)0xABCD);
                TetrahedralKernel.Convert(table, source.AsSpan(3 * from, 3 * count), room.AsSpan(3 * from, 3 * count));

                Assert.All(room[..(3 * from)], c => Assert.Equal(0xABCD, c));
                Assert.All(room[(3 * (from + count))..], c => Assert.Equal(0xABCD, c));
                for (var i = 3 * from; i < 3 * (from + count); i++)
                {
                    Assert.InRange(room[i] - whole[i], -OneCode, OneCode);
                }
            }
        }
    }

    [Fact]
    public void Broken_pixels_and_unlike_lengths_are_the_caller_s_bug()
    {
        var (table, _) = Rough(2);
        Assert.Throws<ArgumentException>(() => TetrahedralKernel.Convert(table, new ushort[4], new ushort[4]));
        Assert.Throws<ArgumentException>(() => TetrahedralKernel.Convert(table, new ushort[3], new ushort[6]));
        Assert.Throws<ArgumentOutOfRangeException>(() => GridTable.Bake(1, (_, _) => { }));
        Assert.Throws<ArgumentOutOfRangeException>(() => GridTable.Bake(66, (_, _) => { }));
    }

    // Unrelated numbers at the nodes: the steepest table there can be.
    private static (GridTable Table, double[] Nodes) Rough(int points)
    {
        var random = new Random(20260411);
        var nodes = new double[points * points * points * 3];
        for (var i = 0; i < nodes.Length; i++)
        {
            nodes[i] = random.Next(65_536) / 65_535.0; // as a table of 16 bits holds it
        }

        return (GridTable.Bake(points, (from, to) =>
        {
            for (var i = 0; i < from.Length; i += 3)
            {
                var at = 3 * Index(points, (int)Math.Round(from[i] * (points - 1)), (int)Math.Round(from[i + 1] * (points - 1)), (int)Math.Round(from[i + 2] * (points - 1)));
                nodes.AsSpan(at, 3).CopyTo(to.AsSpan(i, 3));
            }
        }), nodes);
    }

    private static int Index(int points, int r, int g, int b) => (((r * points) + g) * points) + b;

    // Random pixels, and among them corners, nodes, greys and the codes beside nodes.
    private static ushort[] Pixels(int count, int points)
    {
        var random = new Random(20260412);
        var pixels = new ushort[count * 3];
        for (var i = 0; i < pixels.Length; i++)
        {
            pixels[i] = (i / 3 % 5) switch
            {
                0 => (ushort)(random.Next(2) * 65535),
                1 => (ushort)Math.Clamp((random.Next(points) * 65535.0 / (points - 1)) + random.Next(-1, 2), 0, 65535),
                2 when i % 3 > 0 => pixels[i - 1],
                _ => (ushort)random.Next(65536),
            };
        }

        return pixels;
    }

    // The walk from the cell's near corner to its far one, along the axis of the largest fraction first.
    private static void Exact(double[] nodes, int points, ReadOnlySpan<ushort> pixel, double[] result)
    {
        var (cell, fraction, axes) = (new int[3], new double[3], new[] { 0, 1, 2 });
        for (var k = 0; k < 3; k++)
        {
            var position = pixel[k] / 65535.0 * (points - 1);
            cell[k] = Math.Min((int)position, points - 2);
            fraction[k] = position - cell[k];
        }

        Array.Sort(axes, (a, b) => fraction[b].CompareTo(fraction[a]));
        var (at, before) = ((int[])[.. cell], 1.0);
        Array.Clear(result);
        for (var step = 0; step <= 3; step++)
        {
            var after = step < 3 ? fraction[axes[step]] : 0;
            for (var k = 0; k < 3; k++)
            {
                result[k] += (before - after) * nodes[(3 * Index(points, at[0], at[1], at[2])) + k] * 65535;
            }

            if (step < 3)
            {
                at[axes[step]]++;
                before = after;
            }
        }
    }
}

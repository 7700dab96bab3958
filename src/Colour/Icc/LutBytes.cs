namespace Goodsheet.Colour.Icc;

/// <summary>Makes the data of colour tables (ICC.1 clauses 10.11 to 10.13, numbers from memory).</summary>
internal static class LutBytes
{
    private const int MostWideEntries = 4096; // of a curve in lut16Type

    /// <summary>lutAToBType or lutBToAType, 16 bits. A matrix that would change nothing, and M curves, are left out.</summary>
    public static byte[] Rich(LutTable table, bool toPcs)
    {
        const int head = 32;
        var before = Curves(table.InputCurves);
        var after = Curves(table.OutputCurves);
        var (b, a) = toPcs ? (after, before) : (before, after);
        var nodes = table.Table.Nodes;
        var clutAt = head + b.Length;
        var aAt = clutAt + 20 + ((2 * nodes.Length) + 3 & ~3);

        var data = TagBytes.Typed(toPcs ? "mAB " : "mBA ", aAt + a.Length);
        (data[8], data[9]) = ((byte)table.Table.Inputs, (byte)table.Table.Outputs);
        TagBytes.U32(data.AsSpan(12), head);
        TagBytes.U32(data.AsSpan(24), (uint)clutAt);
        TagBytes.U32(data.AsSpan(28), (uint)aAt);
        b.CopyTo(data, head);
        for (var i = 0; i < table.Table.Inputs; i++)
        {
            data[clutAt + i] = (byte)table.Table.Grid[i];
        }

        data[clutAt + 16] = 2;
        Codes(data, clutAt + 20, nodes);
        a.CopyTo(data, aAt);
        return data;
    }

    /// <summary>lut16Type of version 2, Lab in its encoding, the matrix at its place changing nothing.</summary>
    public static byte[] Wide(LutTable table, bool toPcs)
    {
        var grid = table.Table.Grid;
        if (grid.Any(g => g != grid[0]))
        {
            throw new ArgumentException($"Version 2 wants as many nodes along each channel, not {string.Join(" x ", grid)}.", nameof(table));
        }

        var before = toPcs ? Alike(table.InputCurves) : FromOldLab(table.InputCurves);
        var after = toPcs ? ToOldLab(Alike(table.OutputCurves)) : Alike(table.OutputCurves);
        var nodes = table.Table.Nodes;
        var (n, m) = (before[0].Length, after[0].Length);
        var data = TagBytes.Typed("mft2", 52 + (2 * ((before.Length * n) + nodes.Length + (after.Length * m))));
        (data[8], data[9], data[10]) = ((byte)table.Table.Inputs, (byte)table.Table.Outputs, (byte)grid[0]);
        for (var i = 0; i < 3; i++)
        {
            TagBytes.U32(data.AsSpan(12 + (16 * i)), 0x1_0000);
        }

        TagBytes.U16(data.AsSpan(48), (ushort)n);
        TagBytes.U16(data.AsSpan(50), (ushort)m);
        var at = 52;
        foreach (var curve in before)
        {
            at = Codes(data, at, curve);
        }

        at = Codes(data, at, nodes);
        foreach (var curve in after)
        {
            at = Codes(data, at, curve);
        }

        return data;
    }

    private static int Codes(byte[] data, int at, ReadOnlySpan<ushort> codes)
    {
        foreach (var code in codes)
        {
            TagBytes.U16(data.AsSpan(at), code);
            at += 2;
        }

        return at;
    }

    private static byte[] Curves(IReadOnlyList<ToneCurve> curves)
    {
        List<byte> bytes = [];
        foreach (var curve in curves)
        {
            bytes.AddRange(TagBytes.Curve(curve, IccVersion.V4));
            while (bytes.Count % 4 != 0)
            {
                bytes.Add(0);
            }
        }

        return [.. bytes];
    }

    // Curves of one length: the least that has a point wherever one of them has, else as many as fit.
    private static ushort[][] Alike(IReadOnlyList<ToneCurve> curves)
    {
        var steps = curves.Aggregate(1L, (all, curve) => Math.Min(LeastCommon(all, Steps(curve)), MostWideEntries));
        var entries = (int)Math.Min(steps + 1, MostWideEntries);
        return [.. curves.Select(c => SampledCurve.Of(entries, c.Evaluate).Entries.ToArray())];
    }

    // The old encoding reaches 257/256 as far: with 257 k steps, each k-th of 256 is a point of the new one.
    private static ushort[][] FromOldLab(IReadOnlyList<ToneCurve> curves)
    {
        const int most = (MostWideEntries - 1) / 257;
        var k = Enumerable.Range(1, most).FirstOrDefault(k => curves.All(c => 256 * k % Steps(c) == 0), most);
        return [.. curves.Select(c => SampledCurve.Of((257 * k) + 1, x => c.Evaluate(x * 257 / 256)).Entries.ToArray())];
    }

    private static ushort[][] ToOldLab(ushort[][] curves) =>
        [.. curves.Select(c => c.Select(y => (ushort)Math.Round(y * (65280.0 / 65535))).ToArray())];

    private static int Steps(ToneCurve curve) => curve switch
    {
        { IsIdentity: true } => 1,
        SampledCurve sampled => sampled.Entries.Length - 1,
        _ => MostWideEntries - 1,
    };

    private static long LeastCommon(long a, long b)
    {
        var (x, y) = (a, b);
        while (y != 0)
        {
            (x, y) = (y, x % y);
        }

        return a / x * b;
    }
}

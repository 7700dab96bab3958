namespace Goodsheet.Colour.Icc;

/// <summary>Reads the four types of colour table (ICC.1 clauses 10.10 to 10.13, numbers from memory).</summary>
internal static class LutElements
{
    /// <summary>What a table holds, as stages from numbers of 0 to 1 to numbers of 0 to 1.</summary>
    /// <param name="Stages">The stages that change something; never none.</param>
    /// <param name="Wide">Whether it is lut16Type, whose Lab is always written as in version 2.</param>
    public sealed record Lut(IReadOnlyList<Stage> Stages, bool Wide);

    public static Lut Read(IccReader data, int inputs, int outputs, Interpolation how)
    {
        if (data.U8(8) != inputs || data.U8(9) != outputs)
        {
            throw data.Fault(8, $"A table from {data.U8(8)} to {data.U8(9)} channels, where {inputs} to {outputs} belongs.");
        }

        return data.Signature(0).ToString() switch
        {
            "mft1" => new(Simple(data, inputs, outputs, how, wide: false), Wide: false),
            "mft2" => new(Simple(data, inputs, outputs, how, wide: true), Wide: true),
            "mAB " => new(Rich(data, inputs, outputs, how, toPcs: true), Wide: false),
            "mBA " => new(Rich(data, inputs, outputs, how, toPcs: false), Wide: false),
            var type => throw data.Fault(0, $"A colour table of type '{type}' is not known."),
        };
    }

    // lut8Type and lut16Type: matrix, curves of one length, table, curves of one length.
    private static List<Stage> Simple(IccReader data, int inputs, int outputs, Interpolation how, bool wide)
    {
        var grid = Enumerable.Repeat((int)data.U8(10), inputs).ToArray();
        var matrix = TagElements.Matrix(data, 12, 9);
        var (entriesIn, entriesOut) = wide ? ((int)data.U16(48), (int)data.U16(50)) : (256, 256);
        if (entriesIn < 2 || entriesOut < 2)
        {
            throw data.Fault(48, "A table's curves have fewer than two entries.");
        }

        var size = wide ? 2 : 1;
        var nodes = Nodes(data, 10, grid);
        var at = wide ? 52 : 48;
        List<Stage> stages = [];
        if (inputs == 3 && !matrix.IsIdentity)
        {
            stages.Add(new MatrixStage(matrix));
        }

        stages.Add(Curves(inputs, entriesIn));
        var table = new Clut(grid, outputs, data.Codes(at, nodes * outputs, wide));
        at += nodes * outputs * size;
        stages.Add(new ClutStage(table, how));
        stages.Add(Curves(outputs, entriesOut));
        return stages;

        CurveStage Curves(int channels, int entries)
        {
            var curves = new ToneCurve[channels];
            for (var i = 0; i < channels; i++, at += entries * size)
            {
                curves[i] = new SampledCurve(data.Codes(at, entries, wide));
            }

            return new(curves);
        }
    }

    // lutAToBType: A curves, table, M curves, matrix, B curves; lutBToAType the other way about. Only B must be there.
    private static List<Stage> Rich(IccReader data, int inputs, int outputs, Interpolation how, bool toPcs)
    {
        var (b, matrix, m, clut, a) = (Offset(12), Offset(16), Offset(20), Offset(24), Offset(28));
        var (device, pcs) = toPcs ? (inputs, outputs) : (outputs, inputs);
        if (clut is null && inputs != outputs)
        {
            throw data.Fault(24, $"There is no colour table to come from {inputs} to {outputs} channels.");
        }

        if (matrix is not null && pcs != 3)
        {
            throw data.Fault(16, $"A matrix stands on {pcs} channels.");
        }

        Stage?[] stages =
        [
            a is null ? null : Curves(data, a.Value, device),
            clut is null ? null : new ClutStage(Table(data.From(clut.Value), inputs, outputs), how),
            m is null ? null : Curves(data, m.Value, pcs),
            matrix is null ? null : new MatrixStage(TagElements.Matrix(data, matrix.Value, 12)),
            b is null ? throw data.Fault(12, "The table has no B curves.") : Curves(data, b.Value, pcs),
        ];
        return [.. (toPcs ? stages : stages.Reverse()).OfType<Stage>()];

        int? Offset(int at) => data.Count(at, data.Length, "bytes before a part of the table") is var offset && offset > 0 ? offset : null;
    }

    private static CurveStage Curves(IccReader data, int at, int channels)
    {
        var curves = new ToneCurve[channels];
        for (var i = 0; i < channels; i++)
        {
            curves[i] = TagElements.Curve(data.From(at), out var size);
            at += (size + 3) & ~3;
        }

        return new(curves);
    }

    private static Clut Table(IccReader data, int inputs, int outputs)
    {
        var grid = new int[inputs];
        for (var i = 0; i < inputs; i++)
        {
            grid[i] = data.U8(i);
        }

        var wide = data.U8(16) switch
        {
            1 => false,
            2 => true,
            var bytes => throw data.Fault(16, $"A table's numbers have {bytes} bytes; 1 and 2 are known."),
        };
        var nodes = Nodes(data, 0, grid);
        return new(grid, outputs, data.Codes(20, nodes * outputs, wide));
    }

    private static int Nodes(IccReader data, int at, int[] grid) =>
        Clut.CountNodes(grid) ?? throw data.Fault(at, $"A grid of {string.Join(" x ", grid)} nodes is no table, or too large.");
}

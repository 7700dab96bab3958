namespace Goodsheet.Colour.Icc;

/// <summary>Profiles without tables: three curves and a matrix, or one grey curve (ICC.1 Annex F, from memory).</summary>
internal static class PlainProfile
{
    private static readonly Signature[] Curves = [TagSignature.RedTrc, TagSignature.GreenTrc, TagSignature.BlueTrc];
    private static readonly Signature[] Columns = [TagSignature.RedColumn, TagSignature.GreenColumn, TagSignature.BlueColumn];

    public static (Pipeline? ToPcs, Pipeline? FromPcs) Read(IccHeader header, IccReader file, IReadOnlyList<IccTag> tags)
    {
        return header.Space switch
        {
            ColourSpace.Rgb when Curves.All(Has) && Columns.All(Has) =>
                Rgb(header.Pcs, [.. Curves.Select(Curve)], [.. Columns.Select(Column)]),
            ColourSpace.Grey when Has(TagSignature.GreyTrc) => Grey(header.Pcs, Curve(TagSignature.GreyTrc)),
            _ => (null, null),
        };

        bool Has(Signature tag) => tags.Any(t => t.Signature == tag);

        IccReader Data(Signature tag)
        {
            var found = tags.First(t => t.Signature == tag);
            return file.Element(found.Offset, found.Size);
        }

        ToneCurve Curve(Signature tag) => TagElements.Curve(Data(tag));

        XyzNumber Column(Signature tag) => TagElements.Xyz(Data(tag));
    }

    private static (Pipeline? ToPcs, Pipeline? FromPcs) Rgb(ColourSpace pcs, ToneCurve[] curves, XyzNumber[] columns)
    {
        var (r, g, b) = (columns[0], columns[1], columns[2]);
        var matrix = new Matrix3(r.X, g.X, b.X, r.Y, g.Y, b.Y, r.Z, g.Z, b.Z);
        List<Stage> to = [new CurveStage(curves), new MatrixStage(matrix)];
        List<Stage>? from = matrix.Inverse() is { } inverse ? [new MatrixStage(inverse), new InverseCurveStage(curves)] : null;
        if (pcs == ColourSpace.Lab)
        {
            to.Add(new PcsStage(ColourSpace.Xyz, ColourSpace.Lab));
            from?.Insert(0, new PcsStage(ColourSpace.Lab, ColourSpace.Xyz));
        }

        return (new(to), from is null ? null : new(from));
    }

    private static (Pipeline? ToPcs, Pipeline? FromPcs) Grey(ColourSpace pcs, ToneCurve curve)
    {
        // A curve to Lab gives lightness, a curve to XYZ luminance.
        var (white, pick) = pcs == ColourSpace.Lab
            ? (new XyzNumber(100, 0, 0), new PickStage(0, 100))
            : (XyzNumber.D50, new PickStage(1, 1));
        return (new(new CurveStage([curve]), new SpreadStage(white)), new(pick, new InverseCurveStage([curve])));
    }
}

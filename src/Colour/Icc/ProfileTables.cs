namespace Goodsheet.Colour.Icc;

/// <summary>Reads the tables of one profile, each datum once however many tags share it.</summary>
internal sealed class ProfileTables(IccHeader header)
{
    private static readonly Signature[] ToPcs = [TagSignature.A2B0, TagSignature.A2B1, TagSignature.A2B2];
    private static readonly Signature[] FromPcs = [TagSignature.B2A0, TagSignature.B2A1, TagSignature.B2A2];

    private readonly Dictionary<(int Offset, int Size, bool ToPcs, int Outputs), Pipeline> read = [];

    /// <summary>The table of a tag from or to colours themselves, or null when it is none of the tables.</summary>
    public Pipeline? Read(IccTag tag, IccReader data)
    {
        if (ToPcs.Contains(tag.Signature))
        {
            return Once(tag, true, header.Pcs.Channels(), () => Read(data, header.Space, header.Pcs));
        }

        if (FromPcs.Contains(tag.Signature))
        {
            return Once(tag, false, header.Space.Channels(), () => Read(data, header.Pcs, header.Space));
        }

        return tag.Signature == TagSignature.Gamut ? Once(tag, false, 1, () => Read(data, header.Pcs, ColourSpace.Grey)) : null;
    }

    private static Pipeline Read(IccReader data, ColourSpace from, ColourSpace to)
    {
        // The reference engine reads tables indexed by Lab with all eight corners; see docs/decisions/0031.
        var how = from == ColourSpace.Lab ? Interpolation.Multilinear : Interpolation.Tetrahedral;
        var lut = LutElements.Read(data, from.Channels(), to.Channels(), how);
        List<Stage> stages = [.. lut.Stages];
        if (Encoding(from, lut.Wide) is { } encoding)
        {
            stages.Insert(0, new EncodingStage(encoding, Decodes: false));
        }

        if (Encoding(to, lut.Wide) is { } decoding)
        {
            stages.Add(new EncodingStage(decoding, Decodes: true));
        }

        return new(stages);
    }

    private static PcsEncoding? Encoding(ColourSpace space, bool wide) => space switch
    {
        ColourSpace.Lab => wide ? PcsEncoding.LabV2 : PcsEncoding.LabV4,
        ColourSpace.Xyz => PcsEncoding.Xyz,
        _ => null,
    };

    private Pipeline Once(IccTag tag, bool toPcs, int outputs, Func<Pipeline> make)
    {
        var key = (tag.Offset, tag.Size, toPcs, outputs);
        if (!read.TryGetValue(key, out var pipeline))
        {
            read.Add(key, pipeline = make());
        }

        return pipeline;
    }
}

namespace Goodsheet.Colour.Icc;

/// <summary>Writes profiles: version 4.4 or 2.4, the same bytes for the same input (ICC.1:2022, from memory).</summary>
public static class IccProfileWriter
{
    /// <summary>The bytes of a printer profile: class output, connection space Lab.</summary>
    /// <exception cref="ArgumentException">The tables do not fit the device, a text is not what its place holds, or a
    /// grid cannot be written in version 2, which wants as many nodes along each channel.</exception>
    public static byte[] Write(PrinterProfile profile, IccVersion version)
    {
        ArgumentNullException.ThrowIfNull(profile);
        if (profile.Space is not (ColourSpace.Grey or ColourSpace.Rgb or ColourSpace.Cmyk))
        {
            throw new ArgumentException($"A printer takes grey, RGB or CMYK, not {profile.Space}.", nameof(profile));
        }

        var device = profile.Space.Channels();
        var file = Start(version, profile.Description, profile.Copyright, profile.MediaWhite, profile.ChromaticAdaptation);
        if (version == IccVersion.V2 && profile.MediaBlack is { } black)
        {
            file.Add(TagSignature.MediaBlack, TagBytes.Xyz(black));
        }

        Table(TagSignature.A2B0, profile.A2B0, device, 3);
        Table(TagSignature.A2B1, profile.A2B1, device, 3);
        Table(TagSignature.A2B2, profile.A2B2, device, 3);
        Table(TagSignature.B2A0, profile.B2A0, 3, device);
        Table(TagSignature.B2A1, profile.B2A1, 3, device);
        Table(TagSignature.B2A2, profile.B2A2, 3, device);
        Table(TagSignature.Gamut, profile.Gamut, 3, 1);
        if (version == IccVersion.V4 && profile.PerceptualReferenceMedium)
        {
            file.Add(TagSignature.PerceptualGamut, TagBytes.Signature(Signature.Of("prmg")));
        }

        if (profile.CharTarget is { } target)
        {
            file.Add(TagSignature.CharTarget, TagBytes.Text(target));
        }

        return file.ToBytes(new(version, "prtr", profile.Space, ColourSpace.Lab, profile.Created)
        {
            Matte = profile.Matte,
            Intent = profile.Intent,
        });

        void Table(Signature tag, LutTable table, int inputs, int outputs)
        {
            if (table.Table.Inputs != inputs || table.Table.Outputs != outputs)
            {
                throw new ArgumentException(
                    $"{tag} goes from {inputs} to {outputs} channels, not {table.Table.Inputs} to {table.Table.Outputs}.", nameof(profile));
            }

            var toPcs = tag.ToString()[0] == 'A';
            file.Add(tag, version == IccVersion.V4 ? LutBytes.Rich(table, toPcs) : LutBytes.Wide(table, toPcs));
        }
    }

    /// <summary>The bytes of an RGB space: class display, connection space XYZ.</summary>
    /// <remarks>Its white is D50 in both versions, as in the ICC's own sRGB profile of version 2; the matrix of
    /// adaptation says what it was.</remarks>
    /// <exception cref="ArgumentException">A text is not what its place holds.</exception>
    public static byte[] Write(RgbSpaceProfile profile, IccVersion version)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var file = Start(version, profile.Description, profile.Copyright, XyzNumber.D50, profile.ChromaticAdaptation);
        file.Add(TagSignature.RedColumn, TagBytes.Xyz(Column(0)));
        file.Add(TagSignature.GreenColumn, TagBytes.Xyz(Column(1)));
        file.Add(TagSignature.BlueColumn, TagBytes.Xyz(Column(2)));
        var curve = TagBytes.Curve(profile.Curve, version);
        file.Add(TagSignature.RedTrc, curve);
        file.Add(TagSignature.GreenTrc, curve);
        file.Add(TagSignature.BlueTrc, curve);
        return file.ToBytes(new(version, "mntr", ColourSpace.Rgb, ColourSpace.Xyz, profile.Created));

        XyzNumber Column(int i) => new(profile.Primaries[0, i], profile.Primaries[1, i], profile.Primaries[2, i]);
    }

    /// <summary>The bytes of a grey space: class display, connection space XYZ, white D50.</summary>
    /// <exception cref="ArgumentException">A text is not what its place holds.</exception>
    public static byte[] Write(GreySpaceProfile profile, IccVersion version)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var file = Start(version, profile.Description, profile.Copyright, XyzNumber.D50, null);
        file.Add(TagSignature.GreyTrc, TagBytes.Curve(profile.Curve, version));
        return file.ToBytes(new(version, "mntr", ColourSpace.Grey, ColourSpace.Xyz, profile.Created));
    }

    private static ProfileFile Start(
        IccVersion version, IReadOnlyList<LocalText> name, IReadOnlyList<LocalText> rights, XyzNumber white, Matrix3? adaptation)
    {
        var file = new ProfileFile();
        if (version == IccVersion.V4)
        {
            file.Add(TagSignature.Description, TagBytes.LocalTexts(name));
            file.Add(TagSignature.Copyright, TagBytes.LocalTexts(rights));
        }
        else
        {
            file.Add(TagSignature.Description, TagBytes.OldDescription(TagBytes.First(name)));
            file.Add(TagSignature.Copyright, TagBytes.Text(TagBytes.Ascii(TagBytes.First(rights))));
        }

        file.Add(TagSignature.MediaWhite, TagBytes.Xyz(white));
        if (adaptation is not null)
        {
            file.Add(TagSignature.ChromaticAdaptation, TagBytes.Matrix(adaptation));
        }

        return file;
    }
}

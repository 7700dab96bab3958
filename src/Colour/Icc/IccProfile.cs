namespace Goodsheet.Colour.Icc;

/// <summary>An ICC profile of version 2 or 4, read whole and checked (ICC.1:2022, ISO 15076-1; from memory).</summary>
/// <remarks>
/// Read here: input, display, output and colour-space profiles between grey, RGB, CMYK, Lab or XYZ and a connection
/// space of Lab or XYZ, by tables (lut8Type, lut16Type, lutAToBType, lutBToAType), by matrix and curves, or by one grey
/// curve. Not read: device links, abstract and named-colour profiles, more than four channels, the floating-point
/// tables D2Bx and B2Dx. Tags that are not known are listed and left alone. Immutable.
/// </remarks>
public sealed class IccProfile
{
    private static readonly Signature[] ToPcsTags = [TagSignature.A2B0, TagSignature.A2B1, TagSignature.A2B2, TagSignature.A2B1];
    private static readonly Signature[] FromPcsTags = [TagSignature.B2A0, TagSignature.B2A1, TagSignature.B2A2, TagSignature.B2A1];

    private readonly ReadOnlyMemory<byte> file;
    private readonly Dictionary<Signature, Pipeline> tables = [];
    private readonly Pipeline? plainToPcs;
    private readonly Pipeline? plainFromPcs;

    private IccProfile(ReadOnlyMemory<byte> file)
    {
        Header = HeaderElement.Header(new(file, 0, file.Length));
        this.file = file[..Header.Size];
        var whole = new IccReader(this.file, 0, Header.Size);
        Tags = HeaderElement.Tags(whole);

        Description = Read(TagSignature.Description, TagElements.Text) ?? "";
        Copyright = Read(TagSignature.Copyright, TagElements.Text) ?? "";
        CharTarget = Read(TagSignature.CharTarget, TagElements.Text);
        MediaWhite = Value(TagSignature.MediaWhite, TagElements.Xyz) ?? XyzNumber.D50;
        MediaBlack = Value(TagSignature.MediaBlack, TagElements.Xyz);
        ChromaticAdaptation = Read(TagSignature.ChromaticAdaptation, TagElements.Matrix);

        var tableReader = new ProfileTables(Header);
        foreach (var tag in Tags)
        {
            if (tableReader.Read(tag, whole.Element(tag.Offset, tag.Size)) is { } pipeline)
            {
                tables.Add(tag.Signature, pipeline);
            }
        }

        (plainToPcs, plainFromPcs) = PlainProfile.Read(Header, whole, Tags);
    }

    /// <summary>The header.</summary>
    public IccHeader Header { get; }

    /// <summary>The tag table, in the order of the file.</summary>
    public IReadOnlyList<IccTag> Tags { get; }

    /// <summary>The bytes of the profile.</summary>
    public ReadOnlyMemory<byte> Bytes => file;

    /// <summary>Its name in its first language, or nothing.</summary>
    public string Description { get; }

    /// <summary>Its copyright notice in its first language, or nothing.</summary>
    public string Copyright { get; }

    /// <summary>The measurements it was made from, as text, when it holds them.</summary>
    public string? CharTarget { get; }

    /// <summary>The media white point; D50 where the profile has none.</summary>
    public XyzNumber MediaWhite { get; }

    /// <summary>The media black point, which only version 2 has.</summary>
    public XyzNumber? MediaBlack { get; }

    /// <summary>The matrix from the illuminant of measurement to D50, where there is one.</summary>
    public Matrix3? ChromaticAdaptation { get; }

    /// <summary>Whether it has curves and primaries, or a grey curve, instead of tables or beside them.</summary>
    public bool IsMatrixShaper => plainToPcs is not null;

    /// <summary>From the connection space to 0 where a colour can be printed; null where the profile does not say.</summary>
    public Pipeline? Gamut => tables.GetValueOrDefault(TagSignature.Gamut);

    /// <summary>Whether the profile ID in the header is that of these bytes; null where there is none.</summary>
    public bool? ProfileIdHolds =>
        Header.ProfileId is { } id ? id == Convert.ToHexStringLower(ProfileId.Of(file.Span)) : null;

    /// <summary>Reads a profile.</summary>
    /// <param name="file">The file, which must not change afterwards. Bytes after the profile are left aside.</param>
    /// <returns>The profile, or the fault and where it is. Damaged files never throw.</returns>
    public static IccReading Read(ReadOnlyMemory<byte> file)
    {
        if (file.Length > IccLimits.FileBytes)
        {
            return new(new IccFault(IccLimits.FileBytes, $"The file is longer than {IccLimits.FileBytes} bytes."));
        }

        try
        {
            return new(new IccProfile(file));
        }
        catch (IccFaultException caught)
        {
            return new(caught.Fault);
        }
    }

    /// <summary>From device values to the connection space, in L*a*b* or XYZ themselves; null where the profile cannot.</summary>
    /// <remarks>Without a table for the intent the perceptual one serves, then matrix and curves: what engines do.</remarks>
    public Pipeline? ToPcs(RenderingIntent intent) => Choose(ToPcsTags, intent) ?? plainToPcs;

    /// <summary>From the connection space to device values of 0 to 1, not clipped; null where the profile cannot.</summary>
    /// <remarks>As <see cref="ToPcs"/>.</remarks>
    public Pipeline? FromPcs(RenderingIntent intent) => Choose(FromPcsTags, intent) ?? plainFromPcs;

    /// <summary>Whether the profile has a table of its own for this intent, from device to connection space.</summary>
    public bool HasTableToPcs(RenderingIntent intent) => tables.ContainsKey(ToPcsTags[(int)intent]);

    /// <summary>Whether the profile has a table of its own for this intent, from connection space to device.</summary>
    public bool HasTableFromPcs(RenderingIntent intent) => tables.ContainsKey(FromPcsTags[(int)intent]);

    /// <summary>The white that the absolute intent scales by: the media white, but for screens of version 2 D50.</summary>
    /// <remarks>Screens of version 2 give their own white, to which the eye is adapted all the same.</remarks>
    public XyzNumber MediaWhiteForAbsolute() =>
        Header is { Class: ProfileClass.Display, Major: < 4 } || !(MediaWhite is { X: > 0, Y: > 0, Z: > 0 }) ? XyzNumber.D50 : MediaWhite;

    /// <summary>The data of one tag, its type first; null where there is no such tag.</summary>
    public ReadOnlyMemory<byte>? Data(Signature tag) =>
        Tags.FirstOrDefault(t => t.Signature == tag) is { } found ? file.Slice(found.Offset, found.Size) : null;

    private Pipeline? Choose(Signature[] tags, RenderingIntent intent) =>
        tables.GetValueOrDefault(tags[(int)intent]) ?? tables.GetValueOrDefault(tags[0]);

    private T? Read<T>(Signature tag, Func<IccReader, T> read)
        where T : class =>
        Tags.FirstOrDefault(t => t.Signature == tag) is { } found ? read(new(file, found.Offset, found.Size)) : null;

    private T? Value<T>(Signature tag, Func<IccReader, T> read)
        where T : struct =>
        Tags.FirstOrDefault(t => t.Signature == tag) is { } found ? read(new(file, found.Offset, found.Size)) : null;
}

namespace Goodsheet.Colour.Icc;

/// <summary>Reads the header and the tag table (ICC.1 clauses 7.2 and 7.3, from memory).</summary>
internal static class HeaderElement
{
    private const uint FileMark = 0x61637370; // 'acsp'
    private const int RowLength = 12;

    public static IccHeader Header(IccReader file)
    {
        if (file.U32(36) != FileMark)
        {
            throw file.Fault(36, "This is no ICC profile: the mark 'acsp' is missing.");
        }

        var size = file.Count(0, file.Length, "bytes in the profile by its header");
        if (size < IccHeader.Length + 4)
        {
            throw file.Fault(0, $"A profile of {size} bytes has no room for its tags.");
        }

        var major = file.U8(8);
        if (major is not (2 or 4))
        {
            throw file.Fault(8, $"The profile is of version {major}; versions 2 and 4 are read here.");
        }

        return new()
        {
            Size = size,
            Major = major,
            Minor = file.U8(9) >> 4,
            Class = Class(file),
            Space = Space(file, 16),
            Pcs = Space(file, 20) is var pcs and (ColourSpace.Lab or ColourSpace.Xyz)
                ? pcs
                : throw file.Fault(20, $"The connection space is '{file.Signature(20)}', not Lab or XYZ."),
            Created = Date(file),
            Intent = (file.U32(64) & 0xFFFF) is var intent && intent <= 3
                ? (RenderingIntent)intent
                : throw file.Fault(64, $"There is no rendering intent {intent}."),
            Illuminant = file.Xyz(68),
            ProfileId = file.Bytes(84, 16) is var id && id.ContainsAnyExcept((byte)0) ? Convert.ToHexStringLower(id) : null,
        };
    }

    public static IReadOnlyList<IccTag> Tags(IccReader file)
    {
        var count = file.Count(IccHeader.Length, IccLimits.Tags, "tags");
        var first = IccHeader.Length + 4 + (RowLength * count);
        _ = file.Bytes(0, Math.Min(first, int.MaxValue));
        List<IccTag> tags = [];
        for (var row = IccHeader.Length + 4; row < first; row += RowLength)
        {
            var signature = file.Signature(row);
            var offset = file.Count(row + 4, file.Length, "bytes before a tag's data");
            var size = file.Count(row + 8, file.Length - offset, "bytes in a tag's data");
            if (offset < first || size < 8)
            {
                throw file.Fault(row, $"The data of '{signature}' are {size} bytes at {offset}: inside the tag table, or too short.");
            }

            if (tags.Exists(t => t.Signature == signature))
            {
                throw file.Fault(row, $"The tag '{signature}' is there twice.");
            }

            // Tags may share data, whole; data that lie across other data are damaged or made to harm.
            if (tags.Find(t => Overlap(t, offset, size)) is { } other)
            {
                throw file.Fault(row, $"The data of '{signature}' lie across those of '{other.Signature}'.");
            }

            tags.Add(new(signature, offset, size, file.Signature(offset)));
        }

        return tags;
    }

    private static bool Overlap(IccTag tag, int offset, int size) =>
        tag.Offset != offset && tag.Offset < offset + size && offset < tag.Offset + tag.Size;

    private static ProfileClass Class(IccReader file) => file.Signature(12).ToString() switch
    {
        "scnr" => ProfileClass.Input,
        "mntr" => ProfileClass.Display,
        "prtr" => ProfileClass.Output,
        "spac" => ProfileClass.ColourSpace,
        var other => throw file.Fault(12, $"Profiles of class '{other}' are not read here."),
    };

    private static ColourSpace Space(IccReader file, int at) => ColourSpaces.Named(file.Signature(at))
        ?? throw file.Fault(at, $"The colour space '{file.Signature(at)}' is not read here.");

    private static DateTime? Date(IccReader file)
    {
        var (year, month, day) = (file.U16(24), file.U16(26), file.U16(28));
        var (hour, minute, second) = (file.U16(30), file.U16(32), file.U16(34));
        return year is >= 1 and <= 9999 && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
            && hour < 24 && minute < 60 && second < 60
            ? new(year, month, day, hour, minute, second, DateTimeKind.Utc)
            : null;
    }
}

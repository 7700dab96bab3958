using System.Buffers.Binary;
using System.Text;
using Goodsheet.Colour.Icc;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Colour.Tests.Icc;

/// <summary>The second reader of profiles has nothing to say of good ones and something of each that is broken.</summary>
public class IccStructureTest
{
    private static readonly byte[] V4 = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb, 3, 3), IccVersion.V4);
    private static readonly byte[] V2 = IccProfileWriter.Write(InventedPrinters.Profile(ColourSpace.Rgb, 3, 3), IccVersion.V2);

    [Fact]
    public void Finds_nothing_in_good_profiles()
    {
        Assert.Empty(IccStructure.Findings(V4));
        Assert.Empty(IccStructure.Findings(V2));
        Assert.Empty(IccStructure.Findings(BuiltInProfiles.SRgb(IccVersion.V2)));
        Assert.Empty(IccStructure.Findings(BuiltInProfiles.Grey()));
    }

    public static TheoryData<string, bool, int, uint> Header() => new()
    {
        { "header: size", true, 0, 1000 },
        { "header: version", true, 8, 0x05000000 },
        { "header: class", true, 12, 0x61616161 },
        { "header: space", true, 16, 0x61616161 },
        { "header: connection space", true, 20, 0x61616161 },
        { "header: date", true, 24, 0x07EA000D }, // month 13
        { "header: mark", true, 36, 0 },
        { "header: flags", true, 44, 4 },
        { "header: attributes", true, 56, 1 },
        { "header: intent", true, 64, 4 },
        { "header: illuminant", true, 72, 0x0000FFFF },
        { "header: profile ID", true, 84, 0x12345678 },
        { "header: reserved bytes", true, 100, 1 },
        { "header: reserved bytes of version 2", false, 84, 1 },
    };

    [Theory]
    [MemberData(nameof(Header))]
    public void Finds_what_is_wrong_in_a_header(string finding, bool v4, int at, uint value)
    {
        var bytes = (byte[])(v4 ? V4 : V2).Clone();
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(at), value);
        Assert.Contains(IccStructure.Findings(bytes), f => f.StartsWith(finding, StringComparison.Ordinal));
    }

    public static TheoryData<string, bool, string, int, uint> Elements() => new()
    {
        { "desc: type", true, "desc", 0, 0x74657874 },
        { "desc: records", true, "desc", 8, 0 },
        { "desc: ASCII part", false, "desc", 8, 0 },
        { "cprt: reserved bytes", true, "cprt", 4, 1 },
        { "wtpt: type", true, "wtpt", 0, 0x61616161 },
        { "wtpt: no white", true, "wtpt", 12, 0 },
        { "A2B0: type", true, "A2B0", 0, 0x61616161 },
        { "A2B1: channels", true, "A2B1", 8, 0x04030000 },
        { "A2B1: parts", true, "A2B1", 12, 0 },
        { "A2B1: a part is not", true, "A2B1", 24, 33 },
        { "B2A1: its matrix", false, "B2A1", 12, 0 },
        { "B2A1: counts", false, "B2A1", 48, 0x00010002 },
        { "B2A1: length", false, "B2A1", 48, 0x00030002 },
        { "gamt: channels", false, "gamt", 8, 0x03030300 },
        { "rig0: form", true, "rig0", 8, 0 },
    };

    [Theory]
    [MemberData(nameof(Elements))]
    public void Finds_what_is_wrong_in_an_element(string finding, bool v4, string tag, int at, uint value)
    {
        var bytes = (byte[])(v4 ? V4 : V2).Clone();
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(Row(bytes, tag).Offset + at), value);
        Assert.Contains(IccStructure.Findings(bytes), f => f.StartsWith(finding, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("B2A2")]
    [InlineData("gamt")]
    [InlineData("cprt")]
    [InlineData("wtpt")]
    public void Misses_a_tag_that_is_required(string tag)
    {
        var bytes = (byte[])V4.Clone();
        "zzzz"u8.CopyTo(bytes.AsSpan(Row(bytes, tag).At));
        var found = IccStructure.Findings(bytes);
        Assert.Contains($"{tag}: required and missing", found);
        Assert.Contains("zzzz: not a tag that belongs here", found);
    }

    [Fact]
    public void Finds_tags_that_are_there_twice_lie_outside_or_leave_gaps()
    {
        var bytes = (byte[])V4.Clone();
        "A2B1"u8.CopyTo(bytes.AsSpan(Row(bytes, "A2B2").At));
        Assert.Contains("A2B1: twice", IccStructure.Findings(bytes));

        bytes = (byte[])V4.Clone();
        BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(Row(bytes, "gamt").At + 4), bytes.Length);
        Assert.Contains("tag table: gamt lies outside the file", IccStructure.Findings(bytes));

        Assert.Contains(IccStructure.Findings([.. V4, 0, 0, 0, 0]), f => f.EndsWith("after the last tag", StringComparison.Ordinal));
        Assert.Contains(IccStructure.Findings(V4.AsSpan(0, 100)), f => f.EndsWith("are no profile", StringComparison.Ordinal));
    }

    private static (int At, int Offset) Row(byte[] bytes, string tag)
    {
        for (var at = 132; ; at += 12)
        {
            if (Encoding.ASCII.GetString(bytes, at, 4) == tag)
            {
                return (at, BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(at + 4)));
            }
        }
    }
}

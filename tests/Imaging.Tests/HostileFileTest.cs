using System.Buffers.Binary;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>Files that lie, break off or want to fill the memory: a sentence for the person, and nothing left on the disk.</summary>
public class HostileFileTest
{
    public static TheoryData<string> Kinds() => [.. Hostile.Keys];

    private static readonly Dictionary<string, Action<Scratch, string>> Hostile = new()
    {
        ["empty"] = (_, path) => File.WriteAllBytes(path, []),
        ["text"] = (_, path) => File.WriteAllText(path, "not a picture at all"),
        ["three bytes of JPEG"] = (_, path) => File.WriteAllBytes(path, [0xFF, 0xD8, 0xFF]),
        ["TIFF head without directory"] = (_, path) => File.WriteAllBytes(path, [0x49, 0x49, 42, 0, 0xF0, 0xFF, 0xFF, 0x7F]),
        ["TIFF directory that points at itself"] = (_, path) => File.WriteAllBytes(path, [0x49, 0x49, 42, 0, 8, 0, 0, 0, 0, 0, 8, 0, 0, 0]),
        ["TIFF cut off"] = (scratch, path) => Cut(scratch.Ramp("whole.tif", 300, 200), path),
        ["PNG cut off"] = (scratch, path) => Cut(scratch.Ramp("whole.png", 300, 200), path),
        ["JPEG cut off"] = (scratch, path) => Cut(scratch.Ramp("whole.jpg", 300, 200), path),
        ["TIFF that says it is wide"] = (scratch, path) => Lie(scratch.Ramp("whole.tif", 30, 20), path, 256, 250_000),
        ["TIFF that says it is high"] = (scratch, path) => Lie(scratch.Ramp("whole.tif", 30, 20), path, 257, int.MaxValue),
        ["TIFF of no width"] = (scratch, path) => Lie(scratch.Ramp("whole.tif", 30, 20), path, 256, 0),
        ["PNG of four thousand million pixels"] = (_, path) => File.WriteAllBytes(path, Png(65_535, 65_535)),
        ["PNG of negative size"] = (_, path) => File.WriteAllBytes(path, Png(-5, 10)),
        ["PNG of no size"] = (_, path) => File.WriteAllBytes(path, Png(0, 10)),
        ["numbers with a point"] = (_, path) =>
        {
            using var grey = Image.Black(20, 20);
            using var single = grey.Cast(Enums.BandFormat.Float);
            single.Tiffsave(path);
        },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Is_refused_and_leaves_nothing(string kind)
    {
        using var scratch = new Scratch();
        Hostile[kind](scratch, scratch["hostile"]);
        var before = scratch.Files;
        var recipe = PrintPreparationTest.Recipe(50, 40, 100);

        var made = Scratch.Prepare(scratch["hostile"], Scratch.Printer, recipe, scratch["out.tif"]);
        var looked = Scratch.Look(scratch["hostile"], Scratch.Read(Scratch.Printer));
        var shown = ProofPicture.Render(scratch["hostile"], Scratch.Read(Scratch.Printer), new());

        Assert.All((string?[])[made.Fault?.Message, looked.Fault?.Message, shown.Fault?.Message], m => Assert.False(string.IsNullOrWhiteSpace(m)));
        Assert.Equal(before, scratch.Files);
    }

    [Fact]
    public void A_picture_of_one_pixel_by_many_is_odd_but_good()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("thin.tif", 1, 100_000);

        Assert.Equal((1, 100_000), ImageFile.Probe(picture).Value is { } i ? (i.Width, i.Height) : default);
        var looked = Scratch.Look(picture, Scratch.Read(Scratch.Printer));
        Assert.True(looked.Fault is null, looked.Fault?.Message);
    }

    private static void Cut(string whole, string path) => File.WriteAllBytes(path, File.ReadAllBytes(whole)[..^1_000][..2_000]);

    // Writes another number into a directory entry.
    private static void Lie(string whole, string path, ushort tag, int value)
    {
        var bytes = File.ReadAllBytes(whole);
        var at = BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(4));
        var count = BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(at));
        for (var i = 0; i < count; i++)
        {
            var entry = bytes.AsSpan(at + 2 + (12 * i), 12);
            if (BinaryPrimitives.ReadUInt16LittleEndian(entry) == tag)
            {
                entry[2] = 4; // a long
                BinaryPrimitives.WriteInt32LittleEndian(entry[8..], value);
            }
        }

        File.WriteAllBytes(path, bytes);
    }

    private static byte[] Png(int width, int height)
    {
        var head = new byte[8 + 25];
        ((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]).CopyTo(head);
        head[11] = 13;
        "IHDR"u8.CopyTo(head.AsSpan(12));
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(16), width);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(20), height);
        (head[24], head[25]) = (8, 2);
        BinaryPrimitives.WriteUInt32BigEndian(head.AsSpan(29), Crc(head.AsSpan(12, 17)));
        return head;
    }

    // PNG (ISO/IEC 15948), annex D.
    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var b in bytes)
        {
            crc ^= b;
            for (var i = 0; i < 8; i++)
            {
                crc = (crc & 1) != 0 ? 0xEDB88320 ^ (crc >> 1) : crc >> 1;
            }
        }

        return ~crc;
    }
}

using System.Buffers.Binary;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>Pictures whose pixels are read straight from the file, beside libvips' reading of the same file.</summary>
public class PlainTiffTest
{
    private const int Width = 77;
    private const int Height = 45;

    public static TheoryData<int, int, bool, int> Kinds() => new(
        from channels in (int[])[1, 3, 4]
        from depth in (int[])[8, 16]
        from big in (bool[])[false, true]
        from rowsInStrip in (int[])[8, 16, 64]
        select (channels, depth, big, rowsInStrip));

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Plain_files_are_read_as_libvips_reads_them(int channels, int depth, bool big, int rowsInStrip)
    {
        using var scratch = new Scratch();
        using var picture = Noise(channels, depth);
        picture.Tiffsave(scratch["in.tif"], compression: Enums.ForeignTiffCompression.None, bigtiff: big);
        using (var strips = Image.NewFromFile(scratch["in.tif"]))
        {
            strips.Tiffsave(scratch["strips.tif"], compression: Enums.ForeignTiffCompression.None, bigtiff: big, tileHeight: rowsInStrip);
        }

        Assert.NotNull(Opened(scratch["in.tif"]));
        Same(picture, scratch["in.tif"], depth);
        Same(picture, scratch["strips.tif"], depth);
    }

    [Fact]
    public void The_other_order_of_bytes_is_read_too()
    {
        using var scratch = new Scratch();
        using var picture = Noise(3, 16);
        File.WriteAllBytes(scratch["mm.tif"], HighBytesFirst(picture.WriteToMemory<ushort>()));

        Assert.NotNull(Opened(scratch["mm.tif"]));
        Same(picture, scratch["mm.tif"], 16);
    }

    [Theory]
    [InlineData("packed")]
    [InlineData("tiles")]
    [InlineData("transparent")]
    [InlineData("turned")]
    [InlineData("planes cut off")]
    [InlineData("jpeg")]
    [InlineData("empty")]
    public void All_else_is_left_to_libvips(string kind)
    {
        using var scratch = new Scratch();
        using var picture = Noise(3, 16);
        var path = scratch["in.tif"];
        switch (kind)
        {
            case "packed":
                picture.Tiffsave(path, compression: Enums.ForeignTiffCompression.Lzw);
                break;
            case "tiles":
                picture.Tiffsave(path, tile: true, tileWidth: 16, tileHeight: 16);
                break;
            case "transparent":
                using (var alpha = picture.Bandjoin(65_535))
                {
                    alpha.Tiffsave(path);
                }

                break;
            case "turned":
                scratch.Ramp("in.tif", 30, 20, orientation: 6);
                break;
            case "planes cut off":
                picture.Tiffsave(scratch["whole.tif"]);
                File.WriteAllBytes(path, File.ReadAllBytes(scratch["whole.tif"])[..^(Width * 3)]);
                break;
            case "jpeg":
                using (var eight = Noise(3, 8))
                {
                    eight.Jpegsave(path);
                }

                break;
            default:
                File.WriteAllBytes(path, []);
                break;
        }

        Assert.Null(Opened(path));
    }

    [Fact]
    public void A_picture_of_any_kind_is_read_whole_whatever_rows_are_asked_for_together()
    {
        using var scratch = new Scratch();
        using var picture = Noise(3, 8);
        using var wide = picture.Replicate(300, 3); // rows wider than a piece
        wide.Pngsave(scratch["in.png"]);
        var whole = wide.WriteToMemory<byte>();
        using var rows = PictureRows.Open(scratch["in.png"]);
        var random = new Random(20261126);
        for (int y = 0, count; y < wide.Height; y += count)
        {
            count = Math.Min(random.Next(1, 30), wide.Height - y);
            var codes = new ushort[count * wide.Width * 3];
            rows.Read(count, codes);
            var expected = new ushort[codes.Length];
            WideBytes.Spread(whole.AsSpan(y * wide.Width * 3, codes.Length), expected);
            Assert.True(expected.AsSpan().SequenceEqual(codes), $"rows from {y}");
        }

        Assert.Throws<InvalidOperationException>(() => rows.Read(1, new ushort[wide.Width * 3]));
    }

    [Fact]
    public void Bytes_spread_over_their_own_room_are_not_lost()
    {
        var random = new Random(20261127);
        for (var count = 0; count < 100; count++)
        {
            var bytes = new byte[count];
            random.NextBytes(bytes);
            var codes = new ushort[count];
            var room = System.Runtime.InteropServices.MemoryMarshal.AsBytes(codes.AsSpan());
            bytes.CopyTo(room[count..]);

            WideBytes.Spread(room[count..], codes);

            Assert.Equal(bytes.Select(b => (ushort)(b * 257)), codes);
        }
    }

    private static PlainTiff? Opened(string path)
    {
        var opened = PlainTiff.Open(path);
        opened?.Dispose(); // what is asked is only whether there is one
        return opened;
    }

    private static void Same(Image picture, string path, int depth)
    {
        ushort[] expected = depth == 16 ? picture.WriteToMemory<ushort>() : [.. picture.WriteToMemory<byte>().Select(b => (ushort)(b * 257))];
        using var rows = PictureRows.Open(path);
        var codes = new ushort[expected.Length];
        var row = Width * picture.Bands;
        rows.Read(1, codes);
        rows.Read(40, codes.AsSpan(row));
        rows.Read(Height - 41, codes.AsSpan(41 * row));
        Assert.Equal(expected, codes);
    }

    private static Image Noise(int channels, int depth)
    {
        var random = new Random(20261126);
        var codes = new ushort[Width * Height * channels];
        for (var i = 0; i < codes.Length; i++)
        {
            codes[i] = (ushort)random.Next(depth == 16 ? 65_536 : 256);
        }

        using var memory = Image.NewFromMemory(codes, Width, Height, channels, Enums.BandFormat.Ushort);
        using var cast = memory.Cast(depth == 16 ? Enums.BandFormat.Ushort : Enums.BandFormat.Uchar);
        return cast.Copy(interpretation: channels switch
        {
            1 => depth == 16 ? Enums.Interpretation.Grey16 : Enums.Interpretation.Bw,
            3 => depth == 16 ? Enums.Interpretation.Rgb16 : Enums.Interpretation.Srgb,
            _ => Enums.Interpretation.Cmyk,
        });
    }

    // By hand, after TIFF 6.0: one strip of three channels of 16 bits.
    private static byte[] HighBytesFirst(ushort[] codes)
    {
        const int tags = 9, directory = 8, depths = directory + 2 + (tags * 12) + 4, pixels = depths + 6;
        var file = new byte[pixels + (2 * codes.Length)];
        "MM\0*"u8.CopyTo(file);
        BinaryPrimitives.WriteInt32BigEndian(file.AsSpan(4), directory);
        BinaryPrimitives.WriteInt16BigEndian(file.AsSpan(directory), tags);
        (int Tag, int Type, int Count, int Value)[] entries =
        [
            (256, 4, 1, Width), (257, 4, 1, Height), (258, 3, 3, depths), (259, 3, 1, 1 << 16), (262, 3, 1, 2 << 16),
            (273, 4, 1, pixels), (277, 3, 1, 3 << 16), (278, 4, 1, Height), (279, 4, 1, 2 * codes.Length),
        ];
        for (var i = 0; i < tags; i++)
        {
            var at = file.AsSpan(directory + 2 + (i * 12));
            BinaryPrimitives.WriteInt16BigEndian(at, (short)entries[i].Tag);
            BinaryPrimitives.WriteInt16BigEndian(at[2..], (short)entries[i].Type);
            BinaryPrimitives.WriteInt32BigEndian(at[4..], entries[i].Count);
            BinaryPrimitives.WriteInt32BigEndian(at[8..], entries[i].Value);
        }

        for (var i = 0; i < 3; i++)
        {
            BinaryPrimitives.WriteInt16BigEndian(file.AsSpan(depths + (2 * i)), 16);
        }

        for (var i = 0; i < codes.Length; i++)
        {
            BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(pixels + (2 * i)), codes[i]);
        }

        return file;
    }
}

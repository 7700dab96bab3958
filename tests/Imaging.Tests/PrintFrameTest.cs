using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>What is around the picture in its print-ready file, and that everything is where it belongs, to the pixel.</summary>
public class PrintFrameTest
{
    private const double TenthOfAMm = 0.1; // the goal of the product
    private const int Faint = ushort.MaxValue * 9 / 10; // half a line's light in a pixel is 0.73 of white, less or more by where it falls

    [Fact]
    public void A_wrap_is_the_picture_mirrored_and_the_picture_itself_is_untouched()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 100, 60, deep: true);
        var recipe = PrintPreparationTest.Recipe(25.4, 15.24, 100);
        Prepare(scratch, picture, recipe, "plain.tif");
        Prepare(scratch, picture, recipe with { WrapMm = 5.08, BorderMm = 2.54 }, "wrapped.tif");

        using var plain = Image.NewFromFile(scratch["plain.tif"]);
        using var wrapped = Image.NewFromFile(scratch["wrapped.tif"]);
        Assert.Equal((160, 120), (wrapped.Width, wrapped.Height)); // 20 of wrap and 10 of border on each side
        using var mirrored = plain.Embed(20, 20, 140, 100, extend: Enums.Extend.Mirror);
        using var inside = wrapped.Crop(10, 10, 140, 100);
        Assert.Equal(mirrored.WriteToMemory<ushort>(), inside.WriteToMemory<ushort>());
        Assert.Equal(ushort.MaxValue, wrapped.Crop(0, 0, 160, 10).Min());
        Assert.Equal(ushort.MaxValue, wrapped.Crop(150, 0, 10, 120).Min());
    }

    [Fact]
    public void A_stretched_wrap_draws_the_edge_out_fourfold_and_a_plain_one_is_bare()
    {
        using var scratch = new Scratch();
        var picture = scratch.Ramp("in.tif", 100, 60, deep: true);
        var recipe = PrintPreparationTest.Recipe(25.4, 15.24, 100) with { WrapMm = 5.08, BorderMm = 2.54 }; // 20 of wrap, 10 of border
        Prepare(scratch, picture, recipe with { WrapAs = WrapKind.Stretched }, "stretched.tif");
        Prepare(scratch, picture, recipe with { WrapAs = WrapKind.Plain }, "plain.tif");
        Prepare(scratch, picture, recipe, "mirrored.tif");

        using var mirrored = Image.NewFromFile(scratch["mirrored.tif"]);
        using var stretched = Image.NewFromFile(scratch["stretched.tif"]);
        using var plain = Image.NewFromFile(scratch["plain.tif"]);
        var (was, drawn, bare) = (mirrored.WriteToMemory<ushort>(), stretched.WriteToMemory<ushort>(), plain.WriteToMemory<ushort>());
        for (var y = 10; y < 110; y++)
        {
            for (var x = 10; x < 150; x++)
            {
                var (fromX, fromY) = (Inside(x, 30, 130), Inside(y, 30, 90));
                var isFace = fromX == x && fromY == y;
                for (var c = 0; c < 3; c++)
                {
                    Assert.Equal(was[(((fromY * 160) + fromX) * 3) + c], drawn[(((y * 160) + x) * 3) + c]);
                    Assert.Equal(isFace ? was[(((y * 160) + x) * 3) + c] : ushort.MaxValue, bare[(((y * 160) + x) * 3) + c]);
                }
            }
        }

        // Where on the face the pixel that far outside it comes from.
        static int Inside(int at, int first, int after) => at < first ? first + ((first - 1 - at) / 4) : at >= after ? after - 1 - ((at - after) / 4) : at;
    }

    [Fact]
    public void A_wrap_wider_than_the_picture_is_refused()
    {
        using var scratch = new Scratch();
        var made = Scratch.Prepare(scratch.Ramp("in.tif", 100, 60), BuiltInProfiles.SRgb(), PrintPreparationTest.Recipe(25.4, 15.24, 100) with { WrapMm = 16 }, scratch["out.tif"]);
        Assert.Contains("narrower wrap", made.Fault!.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(5)]
    public void Marks_stand_in_line_with_all_edges_and_only_in_the_border(double wrapMm)
    {
        using var scratch = new Scratch();
        using (var white = Image.Black(200, 100, bands: 3) + 255)
        using (var codes = white.Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb))
        {
            codes.Pngsave(scratch["white.png"]);
        }

        var recipe = PrintPreparationTest.Recipe(50.8, 25.4, 360) with { BorderMm = 10, WrapMm = wrapMm };
        Prepare(scratch, scratch["white.png"], recipe, "out.tif");
        using var file = Image.NewFromFile(scratch["out.tif"]);
        var codesOut = file.WriteToMemory<ushort>();
        bool Dark(int x, int y) => codesOut[((y * file.Width) + x) * 3] == 0;

        var border = recipe.BorderPixels;
        int[] across = [border, file.Width - border - 1];
        int[] down = [border, file.Height - border - 1];
        var near = border - (border / 4) - 1; // the last pixel of the strokes
        Assert.All(across, x => Assert.True(Dark(x, near) && Dark(x, file.Height - 1 - near), $"no mark at x {x}"));
        Assert.All(down, y => Assert.True(Dark(near, y) && Dark(file.Width - 1 - near, y), $"no mark at y {y}"));
        var fold = border + recipe.WrapPixels;
        Assert.True(Dark(fold, near) && Dark(near, fold));
        Assert.DoesNotContain(
            from y in Enumerable.Range(border, file.Height - (2 * border)) from x in Enumerable.Range(border, file.Width - (2 * border)) select Dark(x, y), dark => dark);
    }

    [Theory]
    [InlineData(360, 0)] // pixel for pixel
    [InlineData(300, 0.3)] // in another size, and sharpened
    [InlineData(720, 0.3)]
    public void A_ruler_of_lines_one_pixel_wide_comes_out_where_it_was(double picturePpi, double halo)
    {
        const int lines = 12;
        using var scratch = new Scratch();
        var (every, length) = ((int)picturePpi / 4, (int)picturePpi * lines / 4);
        DrawnTiff.Write(scratch["ruler.tif"], length, 40, 3, picturePpi, (_, row) =>
        {
            Array.Fill(row, ushort.MaxValue);
            for (var i = 0; i < lines; i++)
            {
                row.AsSpan(((i * every) + (every / 2)) * 3, 3).Clear();
            }
        });
        var recipe = PrintPreparationTest.Recipe(length / picturePpi * 25.4, 40 / picturePpi * 25.4, 360) with { HaloMm = halo };
        Prepare(scratch, scratch["ruler.tif"], recipe, "out.tif");

        using var file = Image.NewFromFile(scratch["out.tif"]);
        var row = file.Crop(0, file.Height / 2, file.Width, 1).WriteToMemory<ushort>();
        for (var i = 0; i < lines; i++)
        {
            var expected = ((i * every) + (every / 2) + 0.5) / picturePpi * 25.4;
            var from = (int)((expected - 1) / 25.4 * 360);
            var darkest = Enumerable.Range(from, (int)(2 / 25.4 * 360)).Where(x => x >= 0 && x < file.Width).MinBy(x => row[3 * x]);
            Assert.True(row[3 * darkest] < Faint, $"line {i} is gone");
            Assert.Equal(expected, (darkest + 0.5) / 360 * 25.4, TenthOfAMm);
        }
    }

    [Theory]
    [InlineData("jpg")]
    [InlineData("tif")]
    public void What_is_written_in_the_picture_goes_with_it_and_where_it_was_taken_does_not(string kind)
    {
        var xmp = "<x:xmpmeta xmlns:x='adobe:ns:meta/'>invented</x:xmpmeta>"u8.ToArray();
        byte[] iptc = [0x1C, 2, 0x74, 0, 8, .. "Invented"u8, 0x1C, 2, 0x69, 0, 1, (byte)'a']; // IPTC-IIM 2:116 copyright, 2:105 headline (from memory)
        const string artist = "Anna Nobody";
        using var scratch = new Scratch();
        if (kind == "jpg")
        {
            using var ramp = Image.NewFromFile(scratch.Ramp("ramp.png", 40, 30));
            using var noted = ramp.Mutate(m =>
            {
                m.Set(GValue.BlobType, "xmp-data", xmp);
                m.Set(GValue.BlobType, "iptc-data", (byte[])[.. "Photoshop 3.0\0"u8, .. "8BIM"u8, 4, 4, 0, 0, 0, 0, 0, (byte)iptc.Length, .. iptc, .. new byte[iptc.Length % 2]]);
                m.Set(GValue.GStrType, "exif-ifd0-Artist", artist);
                m.Set(GValue.GStrType, "exif-ifd3-GPSLatitudeRef", "N");
            });
            noted.WriteToFile(scratch["in.jpg"]);
        }
        else
        {
            using var tiff = new TiffStrips(scratch["in.tif"], 40, 30, 3);
            tiff.Write(new ushort[40 * 30 * 3]);
            tiff.Finish(300, null, new(xmp, iptc, "a ramp", artist, "Invented 2026"));
        }

        Prepare(scratch, scratch[$"in.{kind}"], PrintPreparationTest.Recipe(10, 7.5, 100), "out.tif");
        using var file = Image.NewFromFile(scratch["out.tif"]);
        Assert.Equal(xmp, (byte[])file.Get("xmp-data"));
        Assert.Equal(iptc, (byte[])file.Get("iptc-data"));
        Assert.DoesNotContain(file.GetFields(), f => f.StartsWith("exif", StringComparison.Ordinal));
        if (kind == "jpg") // libvips reads the names in a TIFF in no other way than the description
        {
            Assert.True(File.ReadAllBytes(scratch["out.tif"]).AsSpan().IndexOf("Anna Nobody\0"u8) > 0);
        }
        else
        {
            Assert.Equal("a ramp", file.Get("image-description"));
        }
    }

    private static void Prepare(Scratch scratch, string picture, PrintRecipe recipe, string name)
    {
        var made = Scratch.Prepare(picture, BuiltInProfiles.SRgb(), recipe, scratch[name]);
        Assert.True(made.Fault is null, made.Fault?.Message);
    }
}

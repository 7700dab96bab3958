using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

public sealed class SheetFileTest : IDisposable
{
    private const double Ppi = 254; // ten pixels a millimetre
    private const ushort Paper = ushort.MaxValue;

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-sheet-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void Carries_every_pixel_of_its_prints_where_they_lie_and_paper_elsewhere()
    {
        var (a, b) = (Print("a.tif", 30, 20, 1), Print("b.tif", 25, 40, 2));
        var plan = new SheetPlan(20, 10, Ppi, [new(a, 1, 2, Turned: false), new(b, 6, 1.5, Turned: true)], []);

        var made = Make(plan);

        Assert.Equal((200, 100, 3), (made.Value!.Width, made.Value.Height, made.Value.Channels));
        using var sheet = Image.NewFromFile(Path.Combine(folder, "sheet.tif"));
        Assert.Equal(Ppi / 25.4, sheet.Xres, 1e-9);
        for (var y = 0; y < 100; y++)
        {
            for (var x = 0; x < 200; x++)
            {
                var expected = Is(x, 10, 30) && Is(y, 20, 20) ? Code(1, x - 10, y - 20)
                    : Is(x, 60, 40) && Is(y, 15, 25) ? Code(2, y - 15, 39 - (x - 60)) // a quarter clockwise
                    : [Paper, Paper, Paper];
                Assert.Equal(expected.Select(v => (double)v), sheet.Getpoint(x, y));
            }
        }
    }

    [Fact]
    public void Draws_marks_on_bare_paper_only()
    {
        var plan = new SheetPlan(20, 10, Ppi, [new(Print("a.tif", 30, 20, 1), 1, 2, Turned: false)], [new(0, 3, 20, 0.1)]);
        Make(plan);
        using var sheet = Image.NewFromFile(Path.Combine(folder, "sheet.tif"));
        Assert.Equal([0, 0, 0], sheet.Getpoint(5, 30));
        Assert.Equal(Code(1, 0, 10).Select(v => (double)v), sheet.Getpoint(10, 30));
        Assert.Equal([0, 0, 0], sheet.Getpoint(40, 30));
        Assert.Equal([Paper, Paper, Paper], sheet.Getpoint(40, 31));
    }

    [Fact]
    public void For_a_driver_of_8_bits_it_is_made_of_8_bits_and_bare_paper_and_marks_stay_even()
    {
        var plan = new SheetPlan(20, 10, Ppi, [new(Print("a.tif", 30, 20, 1), 1, 2, Turned: false)], [new(0, 9, 20, 0.1)], EightBits: true);
        Make(plan);
        using var sheet = Image.NewFromFile(Path.Combine(folder, "sheet.tif"));
        Assert.Equal(Enums.BandFormat.Uchar, sheet.Format);
        Assert.Equal([255, 255, 255], sheet.Getpoint(100, 50));
        Assert.Equal([0, 0, 0], sheet.Getpoint(100, 90));
        Assert.All(sheet.Getpoint(15, 25).Zip(Code(1, 5, 5), (is8, was16) => Math.Abs(is8 - (was16 / 257.0))), off => Assert.InRange(off, 0, 1)); // to one of the two codes beside it
    }

    [Fact]
    public void Refuses_a_print_that_does_not_lie_on_it_and_leaves_nothing()
    {
        var plan = new SheetPlan(3, 3, Ppi, [new(Print("a.tif", 30, 20, 1), 1, 2, Turned: false)], []);
        var made = Make(plan);
        Assert.Contains("does not lie whole", made.Fault!.Message, StringComparison.Ordinal);
        Assert.Equal(["a.tif"], Directory.GetFiles(folder).Select(Path.GetFileName));
    }

    [Fact]
    public void Refuses_a_print_cut_off_in_the_middle_and_leaves_nothing()
    {
        var a = Print("a.tif", 300, 200, 1);
        using (var file = File.OpenWrite(a))
        {
            file.SetLength(file.Length / 2);
        }

        var made = Make(new(40, 40, Ppi, [new(a, 0, 0, Turned: false)], []));
        Assert.NotNull(made.Fault);
        Assert.Equal(["a.tif"], Directory.GetFiles(folder).Select(Path.GetFileName));
    }

    [Fact]
    public void Keeps_the_profile_of_the_condition_on_record()
    {
        var profile = BuiltInProfiles.SRgb();
        Make(new(4, 4, Ppi, [new(Print("a.tif", 30, 20, 1), 0, 0, Turned: false)], []), profile);
        using var sheet = Image.NewFromFile(Path.Combine(folder, "sheet.tif"));
        Assert.Equal(profile, (byte[])sheet.Get("icc-profile-data"));
    }

    private static bool Is(int at, int from, int length) => at >= from && at < from + length;

    private PictureResult<Prepared> Make(SheetPlan plan, byte[]? profile = null) =>
        SheetFile.Write(plan, profile, Path.Combine(folder, "sheet.tif"), cancel: TestContext.Current.CancellationToken);

    private static ushort[] Code(int print, int x, int y) => [(ushort)((print * 10_000) + (x * 100) + y), (ushort)(x * 200), (ushort)(y * 300)];

    private string Print(string name, int width, int height, int number)
    {
        var path = Path.Combine(folder, name);
        DrawnTiff.Write(path, width, height, 3, Ppi, (y, row) =>
        {
            for (var x = 0; x < width; x++)
            {
                Code(number, x, y).CopyTo(row, 3 * x);
            }
        });
        return path;
    }
}

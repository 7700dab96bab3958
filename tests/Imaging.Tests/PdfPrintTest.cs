using System.Diagnostics;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>PDFs read back by a small reader of our own that knows only what ISO 32000-1 says of objects, and by another's program where it is on the machine.</summary>
public sealed class PdfPrintTest
{
    private const double APointTenth = 0.05;

    private static readonly PdfTitle Title = new("Low Water & “Tide” <3>", "Heron, Test Cotton 300", new(2026, 3, 2, 9, 0, 0, TimeSpan.FromHours(1)));

    private static readonly PrintRecipe Recipe = new() { WidthMm = 40, HeightMm = 30, BorderMm = 5, WrapMm = 3, Ppi = 254, Intent = RenderingIntent.RelativeColorimetric };

    [Theory]
    [InlineData(false, false)]
    [InlineData(false, true)]
    [InlineData(true, false)]
    public void Every_pixel_and_the_profile_come_back_as_they_went_in(bool cmyk, bool eightBits)
    {
        using var scratch = new Scratch();
        var printer = cmyk ? Scratch.CmykPrinter : Scratch.Printer;
        Assert.Null(Scratch.Prepare(scratch.Ramp("in.png", 400, 300), printer, Recipe with { EightBits = eightBits }, scratch["print.tif"]).Fault);
        var pdf = Make(scratch, printer, new PdfPage(scratch["print.tif"], 254, new(50, 50, 460, 360), new(20, 20, 520, 420)));

        using var tiff = Image.NewFromFile(scratch["print.tif"], memory: true);
        var image = pdf.First("/Subtype /Image");
        Assert.Equal((tiff.Width, tiff.Height, eightBits ? 8 : 16), (image.Number("Width"), image.Number("Height"), image.Number("BitsPerComponent")));
        Assert.Contains(cmyk ? "/DeviceCMYK" : "/DeviceRGB", image.Says, StringComparison.Ordinal);
        Assert.Equal(Samples(tiff, eightBits), Unpredicted(pdf.Bytes(image), tiff.Width * tiff.Bands * (eightBits ? 1 : 2)));
        Assert.Equal(printer, pdf.Bytes(pdf.First($"/N {(cmyk ? 4 : 3)}")));
    }

    [Fact]
    public void It_is_as_large_as_the_print_and_says_where_it_is_cut_and_what_the_numbers_mean()
    {
        using var scratch = new Scratch();
        Scratch.Prepare(scratch.Ramp("in.png", 400, 300), Scratch.Printer, Recipe, scratch["print.tif"]);
        var pdf = Make(scratch, Scratch.Printer, new PdfPage(scratch["print.tif"], 254, new(50, 50, 460, 360), new(20, 20, 520, 420)));
        Assert.StartsWith("%PDF-1.6\n", pdf.Head, StringComparison.Ordinal);
        var page = pdf.First("/Type /Page ");
        // 560 by 460 pixels of 254 an inch are 56 by 46 mm, 158.74 by 130.39 points.
        Box(page, "MediaBox", 0, 0, 56, 46);
        Box(page, "TrimBox", 5, 46 - 41, 51, 41);
        Box(page, "BleedBox", 2, 46 - 44, 54, 44);
        var intent = pdf.First("/Type /OutputIntent");
        Assert.Matches(@"/S /GTS_PDFX .*/DestOutputProfile \d+ 0 R", intent.Says);
        Assert.DoesNotContain("GTS_PDFXVersion", pdf.All, StringComparison.Ordinal); // no conformity is claimed
        foreach (var no in (string[])["/JavaScript", "/JS", "/OpenAction", "/AA", "/Font", "/SMask", "/Encrypt"])
        {
            Assert.DoesNotContain(no, pdf.Dictionaries, StringComparison.Ordinal);
        }

        var xmp = XDocument.Parse(Encoding.UTF8.GetString(pdf.Bytes(pdf.First("/Subtype /XML"))));
        Assert.Contains(Title.Title, xmp.Descendants().Select(e => e.Value));
        Assert.Contains("2026-03-02T08:00:00Z", xmp.Descendants().Select(e => e.Value));
        Assert.Contains("/CreationDate (D:20260302080000Z)", pdf.First("/Creator").Says, StringComparison.Ordinal);
    }

    [Fact]
    public void Pages_follow_one_another_and_one_over_five_metres_has_larger_units()
    {
        using var scratch = new Scratch();
        DrawnTiff.Write(scratch["a.tif"], 30, 20, 3, 72, (y, row) => Array.Fill(row, (ushort)(y * 1000)));
        DrawnTiff.Write(scratch["long.tif"], 20_000, 3, 3, 72, (_, row) => Array.Fill(row, (ushort)500)); // 20,000 points
        var pdf = Make(scratch, Scratch.Printer, new PdfPage(scratch["a.tif"], 72), new(scratch["long.tif"], 72));
        var pages = pdf.Every("/Type /Page ");
        Assert.Equal(2, pages.Count);
        Assert.Contains("/MediaBox [0 0 30 20]", pages[0].Says, StringComparison.Ordinal);
        Assert.Contains("/UserUnit 2 /MediaBox [0 0 10000 1.5]", pages[1].Says, StringComparison.Ordinal);
    }

    [Fact]
    public void Pages_of_different_inks_and_files_that_are_no_pictures_are_refused()
    {
        using var scratch = new Scratch();
        DrawnTiff.Write(scratch["a.tif"], 30, 20, 3, 72, (_, row) => Array.Clear(row));
        DrawnTiff.Write(scratch["b.tif"], 30, 20, 4, 72, (_, row) => Array.Clear(row));
        File.WriteAllText(scratch["c.tif"], "words");
        using var to = new MemoryStream();
        Assert.Contains("different inks", PdfPrint.Write(to, [new(scratch["a.tif"], 72), new(scratch["b.tif"], 72)], Scratch.Printer, Title, TestContext.Current.CancellationToken).Fault!.Message, StringComparison.Ordinal);
        Assert.NotNull(PdfPrint.Write(to, [new(scratch["c.tif"], 72)], Scratch.Printer, Title, TestContext.Current.CancellationToken).Fault);
        Assert.NotNull(PdfPrint.Write(to, [], Scratch.Printer, Title, TestContext.Current.CancellationToken).Fault);
        Assert.Equal(0, to.Length);
    }

    // Poppler is a reader by others; where it is not installed there is nothing to ask.
    [Fact]
    public void Another_s_program_reads_its_size_and_draws_the_same_numbers()
    {
        if (!File.Exists("/usr/bin/pdfinfo") || !File.Exists("/usr/bin/pdftoppm"))
        {
            return;
        }

        using var scratch = new Scratch();
        Scratch.Prepare(scratch.Ramp("in.png", 400, 300), Scratch.Printer, Recipe with { EightBits = true }, scratch["print.tif"]);
        Make(scratch, Scratch.Printer, new PdfPage(scratch["print.tif"], 254, new(50, 50, 460, 360)));
        var says = Run("pdfinfo", "-box", scratch["print.pdf"]);
        Assert.Matches(@"PDF version:\s+1\.6", says);
        Assert.Matches(@"Page size:\s+158\.7\d* x 130\.3\d* pts", says);
        Assert.Matches(@"JavaScript:\s+no", says);
        Run("pdftoppm", "-r", "254", "-png", "-singlefile", scratch["print.pdf"], scratch["drawn"]);
        using var drawn = Image.NewFromFile(scratch["drawn.png"], memory: true);
        using var tiff = Image.NewFromFile(scratch["print.tif"], memory: true);
        Assert.Equal((tiff.Width, tiff.Height, 3), (drawn.Width, drawn.Height, drawn.Bands));
        using var off = (tiff - drawn).Abs();
        Assert.InRange(off.Max(), 0, 1); // it computes in its own eight bits
    }

    private static Read Make(Scratch scratch, byte[] profile, params PdfPage[] pages)
    {
        using (var to = File.Create(scratch["print.pdf"]))
        {
            var made = PdfPrint.Write(to, pages, profile, Title, TestContext.Current.CancellationToken);
            Assert.Null(made.Fault);
            Assert.Equal(to.Length, made.Value!.Bytes);
        }

        return new(File.ReadAllBytes(scratch["print.pdf"]));
    }

    private static void Box(Read.Thing page, string name, params double[] mm)
    {
        var numbers = Regex.Match(page.Says, $@"/{name} \[([^\]]+)\]").Groups[1].Value.Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture));
        Assert.All(numbers.Zip(mm, (points, wanted) => points - (wanted / 25.4 * 72)), off => Assert.InRange(off, -APointTenth, APointTenth));
    }

    private static byte[] Samples(Image tiff, bool eightBits) => eightBits
        ? tiff.WriteToMemory<byte>()
        : [.. tiff.WriteToMemory<ushort>().SelectMany(v => (byte[])[(byte)(v >> 8), (byte)(v & 0xFF)])];

    // PNG's filter 2, "up" (RFC 2083, 6.4).
    private static byte[] Unpredicted(byte[] rows, int length)
    {
        var plain = new byte[rows.Length / (length + 1) * length];
        for (var y = 0; y < rows.Length / (length + 1); y++)
        {
            Assert.Equal(2, rows[y * (length + 1)]);
            for (var i = 0; i < length; i++)
            {
                plain[(y * length) + i] = unchecked((byte)(rows[(y * (length + 1)) + 1 + i] + (y == 0 ? 0 : plain[((y - 1) * length) + i])));
            }
        }

        return plain;
    }

    private static string Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var (output, error) = (process.StandardOutput.ReadToEnd(), process.StandardError.ReadToEnd());
        process.WaitForExit();
        Assert.True(process.ExitCode == 0 && error.Length == 0, error);
        return output;
    }

    /// <summary>The objects of a PDF, found by its cross-reference table.</summary>
    private sealed class Read
    {
        private readonly byte[] file;
        private readonly List<Thing> things = [];

        public Read(byte[] file)
        {
            this.file = file;
            All = Encoding.Latin1.GetString(file);
            var table = int.Parse(Regex.Match(All, @"startxref\n(\d+)\n%%EOF\n$").Groups[1].Value, CultureInfo.InvariantCulture);
            var lines = All[table..].Split('\n');
            Assert.Equal("xref", lines[0]);
            var count = int.Parse(lines[1].Split(' ')[1], CultureInfo.InvariantCulture);
            for (var number = 1; number < count; number++)
            {
                var at = int.Parse(lines[2 + number].Split(' ')[0], CultureInfo.InvariantCulture);
                Assert.Equal(19, lines[2 + number].Length); // and the line's end makes twenty
                Assert.StartsWith($"{number} 0 obj\n", All[at..(at + 20)], StringComparison.Ordinal);
                var (stream, end) = (All.IndexOf("stream\n", at, StringComparison.Ordinal), All.IndexOf("endobj", at, StringComparison.Ordinal));
                var has = stream >= 0 && stream < end;
                things.Add(new(number, All[at..(has ? stream : end)], has ? stream + 7 : 0));
            }
        }

        public string All { get; }

        public string Head => All[..20];

        public string Dictionaries => string.Concat(things.Select(t => t.Says));

        public Thing First(string says) => Every(says)[0];

        public IReadOnlyList<Thing> Every(string says) => [.. things.Where(t => t.Says.Contains(says, StringComparison.Ordinal))];

        public byte[] Bytes(Thing thing)
        {
            var said = Regex.Match(thing.Says, @"/Length (\d+)( 0 R)?");
            var length = int.Parse(said.Groups[1].Value, CultureInfo.InvariantCulture);
            if (said.Groups[2].Success)
            {
                length = int.Parse(things.Single(t => t.Object == length).Says.Split('\n')[1], CultureInfo.InvariantCulture);
            }

            Assert.Equal("\nendstream", All.Substring(thing.Stream + length, 10));
            var bytes = file.AsSpan(thing.Stream, length).ToArray();
            if (!thing.Says.Contains("/FlateDecode", StringComparison.Ordinal))
            {
                return bytes;
            }

            using var plain = new MemoryStream();
            using var zip = new ZLibStream(new MemoryStream(bytes), CompressionMode.Decompress);
            zip.CopyTo(plain);
            return plain.ToArray();
        }

        public sealed record Thing(int Object, string Says, int Stream)
        {
            public int Number(string name) => int.Parse(Regex.Match(Says, $@"/{name} (\d+)").Groups[1].Value, CultureInfo.InvariantCulture);
        }
    }
}

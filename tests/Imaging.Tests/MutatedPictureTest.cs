using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging.Tests;

/// <summary>Pictures with bytes changed, cut out, doubled and cut off: prepared or refused with a sentence, never anything else.</summary>
public class MutatedPictureTest
{
    private const int Width = 30;
    private const int Height = 20;

    private static readonly int Rounds = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 33_334 : 1_000;

    // To prepare takes its time: every so many are taken the whole way, all are read to their last row.
    private const int WholeWayEvery = 20;

    [Theory]
    [InlineData("tif")]
    [InlineData("png")]
    [InlineData("jpg")]
    public void Is_prepared_or_refused_and_leaves_nothing_else(string kind)
    {
        using var scratch = new Scratch();
        var whole = File.ReadAllBytes(WithProfile(scratch, kind));
        var recipe = PrintPreparationTest.Recipe(12, 8, 100);
        var random = new Random(20261125);
        var (prepared, refused) = (0, 0);
        for (var round = 0; round < Rounds; round++)
        {
            var seed = random.Next();
            File.WriteAllBytes(scratch["changed"], Change(whole, new(seed)));
            try
            {
                var read = ReadToItsEnd(scratch["changed"]);
                (prepared, refused) = read ? (prepared + 1, refused) : (prepared, refused + 1);
                if (round % WholeWayEvery == 0)
                {
                    var made = Scratch.Prepare(scratch["changed"], BuiltInProfiles.SRgb(), recipe, scratch["out.tif"]);
                    Assert.False(made.Fault is { } fault && string.IsNullOrWhiteSpace(fault.Message), $"seed {seed}: refused without a word");
                    Assert.True(read || made.Fault is not null, $"seed {seed}: prepared, but it cannot be read");
                    Assert.Equal(made.Fault is null, File.Exists(scratch["out.tif"]));
                }
            }
            catch (Exception e) when (e is not Xunit.Sdk.XunitException)
            {
                Assert.Fail($"{kind}, seed {seed}: {e}");
            }

            File.Delete(scratch["out.tif"]);
            Assert.Equal(2, scratch.Files.Length); // the whole picture and the changed one
        }

        Assert.True(prepared > 0 && refused > 0, $"{prepared} prepared, {refused} refused: the changes test nothing");
    }

    private static bool ReadToItsEnd(string path)
    {
        var probed = ImageFile.Probe(path);
        if (probed.Value is not { } image || PictureSource.ProfileOf(image).Fault is not null)
        {
            return false;
        }

        try
        {
            using var rows = PictureRows.Open(path);
            _ = PictureNotes.Of(path);
            var row = new ushort[rows.Width * rows.Channels];
            for (var y = 0; y < rows.Height; y++)
            {
                rows.Read(1, row);
            }

            return true;
        }
        catch (VipsException)
        {
            return false; // as the preparation has it
        }
    }

    private static string WithProfile(Scratch scratch, string kind)
    {
        using var ramp = Image.NewFromFile(scratch.Ramp("ramp.png", Width, Height));
        using var with = ramp.Mutate(m =>
        {
            m.Set(GValue.BlobType, "icc-profile-data", BuiltInProfiles.SRgb());
            m.Set(GValue.BlobType, "xmp-data", "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"/>"u8.ToArray());
            m.Set(GValue.BlobType, "iptc-data", (byte[])[.. "Photoshop 3.0\0"u8, .. "8BIM"u8, 4, 4, 0, 0, 0, 0, 0, 8, 28, 2, 80, 0, 3, .. "Ann"u8]);
            m.Set(GValue.GStrType, "exif-ifd0-Artist", "Ann (Ann, ASCII, 4 components, 4 bytes)");
        });
        with.WriteToFile(scratch[$"whole.{kind}"]);
        File.Delete(scratch["ramp.png"]);
        return scratch[$"whole.{kind}"];
    }

    private static byte[] Change(byte[] whole, Random random)
    {
        var bytes = whole.ToList();
        for (var times = random.Next(1, 5); times > 0; times--)
        {
            var at = random.Next(bytes.Count);
            var most = Math.Min(bytes.Count - at, random.Next(1, 40));
            switch (random.Next(6))
            {
                case 0: bytes[at] ^= (byte)(1 << random.Next(8)); break;
                case 1: bytes[at] = (byte)random.Next(256); break;
                case 2: bytes[at] = byte.MaxValue; break;
                case 3: bytes.RemoveRange(at, most); break;
                case 4: bytes.InsertRange(at, bytes.GetRange(at, most)); break;
                default: bytes.RemoveRange(at, random.Next(3) == 0 ? bytes.Count - at : 0); break;
            }

            if (bytes.Count == 0)
            {
                break;
            }
        }

        return [.. bytes];
    }
}

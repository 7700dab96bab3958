using System.Text;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Tests.Measurement;

/// <summary>A bad file is refused with its line; no file makes the reader throw.</summary>
public class HostileFileTest
{
    private static readonly bool Slow = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1";

    public static TheoryData<string, int, string> Bad() => new()
    {
        { "", 0, "empty" },
        { "hello", 1, "neither CGATS" },
        { "a,b\n1,2\n", 1, "no colour" },
        { "\0\u0001\0picture", 0, "not a text" },
        { Charts.Rgb().Replace("\nEND_DATA\n", "\n", StringComparison.Ordinal), 14, "cut off" },
        { Charts.Rgb().Replace("NUMBER_OF_SETS 5", "NUMBER_OF_SETS 6", StringComparison.Ordinal), 13, "rows are missing" },
        { Charts.Rgb().Replace("\n3 128", "\n3", StringComparison.Ordinal), 11, "39 values where 40" },
        { Charts.Rgb().Replace("\n3 128", "\n3 x", StringComparison.Ordinal), 11, "RGB_R is not a usable number" },
        { Charts.Rgb().Replace("\n3 128", "\n3 NaN", StringComparison.Ordinal), 11, "not a usable number" },
        { Charts.Rgb().Replace("\n3 128", "\n3 -5", StringComparison.Ordinal), 11, "below 0" },
        { Charts.Rgb().Replace("\n3 128", "\n3 70000", StringComparison.Ordinal), 11, "above 65535" },
        { Charts.Rgb().Replace("NM400", "NM390", StringComparison.Ordinal), 5, "named twice" },
        { Charts.Rgb().Replace("NM400", "NM405", StringComparison.Ordinal), 5, "evenly spaced" },
        { Charts.Rgb().Replace("END_DATA_FORMAT", "", StringComparison.Ordinal), 0, "" },
        { "CGATS.17\nBEGIN_DATA\n", 0, "" },
        { "BEGIN_DATA_FORMAT\nPC7_1 PC7_2 LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n1 2 3 4 5\nEND_DATA", 2, "2 of 7 inks" },
        { "BEGIN_DATA_FORMAT\nLAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n1e5 2 3\nEND_DATA", 5, "outside anything" },
        { "BEGIN_DATA_FORMAT\nLAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\nEND_DATA", 2, "no row" },
    };

    [Theory]
    [MemberData(nameof(Bad))]
    public void A_bad_file_is_refused_with_its_line(string text, int line, string why)
    {
        var result = Charts.Read(text);
        Assert.Null(result.Set);
        Assert.Contains(why, result.Fault!.Message, StringComparison.Ordinal);
        Assert.True(line == 0 || line == result.Fault.Line, $"line {result.Fault.Line}: {result.Fault.Message}");
    }

    [Fact]
    public void A_file_beyond_any_limit_is_refused()
    {
        var bytes = Encoding.UTF8.GetBytes(Charts.Rgb());
        Assert.NotNull(MeasurementFile.Read(bytes, new(Bytes: bytes.Length)).Set);
        Assert.NotNull(MeasurementFile.Read(bytes, new(Bytes: bytes.Length - 1)).Fault);
        Assert.NotNull(MeasurementFile.Read(bytes, new(Rows: 5)).Set);
        Assert.NotNull(MeasurementFile.Read(bytes, new(Rows: 4)).Fault);
        Assert.NotNull(MeasurementFile.Read(bytes, new(Fields: 40)).Set);
        Assert.NotNull(MeasurementFile.Read(bytes, new(Fields: 39)).Fault);
        Assert.NotNull(MeasurementFile.Read(bytes, new(LineLength: 100)).Fault);
    }

    [Fact]
    public void No_mutation_makes_it_throw_or_answer_by_half()
    {
        var random = new Random(20); // seeded: a failure names its round, which replays
        byte[][] seeds =
        [
            Encoding.UTF8.GetBytes(Charts.Rgb()),
            Encoding.UTF8.GetBytes(Charts.Rgb("ISO28178", "NM", 100, 100).Replace(' ', '\t')),
            Encoding.UTF8.GetBytes("R,G,B,LAB_L,LAB_A,LAB_B\n255,255,255,95,0,-2\n0,0,0,5,0,0\n"),
            Encoding.UTF8.GetBytes("BEGIN_DATA_FORMAT\nPC2_1 PC2_2 XYZ_X XYZ_Y XYZ_Z\nEND_DATA_FORMAT\nBEGIN_DATA\n1 2 3 4 5\nEND_DATA"),
            Encoding.UTF8.GetBytes(CxfSamples.Rgb("M0_Incandescent", "M2_UVExcluded")),
            Encoding.UTF8.GetBytes(CxfSamples.Cmyk()),
            Encoding.UTF8.GetBytes(CxfSamples.SpotInk()),
        ];
        byte[][] words = [.. ((string[])["BEGIN_DATA", "END_DATA", "\"", "\n", "\t", "1e309", "-", ",", "#", "NUMBER_OF_SETS ", "NM380", "<", ">", "&", "<!DOCTYPE a [<!ENTITY b \"c\">]>", "</cc:Object>", "<cc:Object>", "&#0;"]).Select(Encoding.UTF8.GetBytes)];
        for (var round = 0; round < (Slow ? 7 * 100_000 : 4_000); round++)
        {
            var bytes = seeds[random.Next(seeds.Length)].ToList();
            for (var change = random.Next(1, 6); change > 0; change--)
            {
                Mutate(bytes, words, random);
            }

            var result = MeasurementFile.Read(bytes.ToArray());
            Assert.True((result.Set is null) != (result.Fault is null), $"round {round}");
            Assert.True(result.Set?.Patches.All(p => double.IsFinite(p.Lab.L) && p.Device.All(v => v is >= 0 and <= 1)) ?? true, $"round {round}");
        }
    }

    private static void Mutate(List<byte> bytes, byte[][] words, Random random)
    {
        var at = random.Next(bytes.Count + 1);
        var length = Math.Min(random.Next(1, 40), bytes.Count - at);
        switch (random.Next(4))
        {
            case 0:
                bytes.RemoveRange(at, length);
                break;
            case 1:
                bytes.InsertRange(at, words[random.Next(words.Length)]);
                break;
            case 2:
                bytes.InsertRange(at, bytes.GetRange(at, length));
                break;
            default:
                if (at < bytes.Count)
                {
                    bytes[at] = (byte)random.Next(256);
                }

                break;
        }
    }
}

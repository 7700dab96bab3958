using System.Text;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Tests.Measurement;

/// <summary>Every way of writing the same chart that was seen in real files must read the same.</summary>
public class MeasurementFileTest
{
    // Reflectance is written with four decimals; percent then has six.
    private const double AsWritten = 1e-4;

    public static TheoryData<string, string> Spellings() => new()
    {
        { "plain", Charts.Rgb() },
        { "CR LF", Charts.Rgb().ReplaceLineEndings("\r\n") },
        { "CR alone", Charts.Rgb().ReplaceLineEndings("\r") },
        { "CGATS.5", Charts.Rgb("CGATS.5") },
        { "ISO28178", Charts.Rgb("ISO28178") },
        { "an unknown first line", Charts.Rgb("READINGS") },
        { "wavelengths as SPECTRAL_380", Charts.Rgb(spectral: "SPECTRAL_") },
        { "wavelengths as NM380", Charts.Rgb(spectral: "NM") },
        { "reflectance in percent", Charts.Rgb(reflectanceTop: 100) },
        { "device values to 100", Charts.Rgb(deviceTop: 100) },
        { "device values to 1", Charts.Rgb(deviceTop: 1) },
        { "blank lines between rows", Charts.Rgb().Replace("\n", "\n\n", StringComparison.Ordinal) },
        { "tabs after BEGIN_DATA and at row ends", Charts.Rgb().Replace("\n", "\t\t\n", StringComparison.Ordinal) },
        { "tabs between fields", Charts.Rgb().Replace(' ', '\t') },
        { "repeated KEYWORD and WEIGHTING_FUNCTION", Charts.Rgb(head: "KEYWORD \"A\"\nKEYWORD \"B\"\nWEIGHTING_FUNCTION \"ILLUMINANT, D50\"\nWEIGHTING_FUNCTION \"OBSERVER, 2 degree\"\n") },
        { "comments", Charts.Rgb(head: "# a remark\nCREATED \"2026\" # BEGIN_DATA\n") },
        { "each line quoted, quotes doubled", string.Join('\n', Charts.Rgb().Split('\n').Select(l => l.Contains(' ') ? $"\"{l.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : l)) },
        { "NULs at the end", Charts.Rgb() + "\0\0\0" },
        { "a byte order mark", "\uFEFF" + Charts.Rgb() },
        { "decimal commas", string.Join('\n', Charts.Rgb().Split('\n').Select(l => char.IsDigit(l.FirstOrDefault()) ? l.Replace('.', ',') : l)) },
    };

    [Theory]
    [MemberData(nameof(Spellings))]
    public void Reads_the_same_chart_however_it_is_spelled(string how, string text)
    {
        var set = Charts.Set(text);
        Assert.True(set.Space == DeviceSpace.Rgb && set.Patches.Length == 5, how);
        for (var i = 0; i < 5; i++)
        {
            Assert.Equal(((int[])[0, 64, 128, 192, 255])[i] / 255.0, set.Patches[i].Device[1], AsWritten);
            Assert.Equal(Charts.Reflectance(i), set.Patches[i].Spectrum!.Values[7], AsWritten);
            Assert.Equal(380, set.Patches[i].Spectrum!.StartNm);
        }
    }

    [Theory]
    [InlineData("MEASUREMENT_SOURCE \"MeasurementCondition=M0\"\n", MCondition.M0)]
    [InlineData("MEASUREMENT_CONDITION \"M1\"\n", MCondition.M1)]
    [InlineData("FILTER \"M2\"\n", MCondition.M2)]
    [InlineData("DESCRIPTOR \"M3 of the month\"\n", MCondition.Unknown)]
    public void Takes_the_M_condition_from_where_it_is_stated(string head, MCondition condition) =>
        Assert.Equal(condition, Charts.Set(Charts.Rgb(head: head)).Condition);

    [Fact]
    public void Says_what_it_had_to_guess()
    {
        var kinds = Charts.Read(Charts.Rgb("READINGS", deviceTop: 255, reflectanceTop: 100)).Findings.Select(f => f.Kind).ToArray();
        Assert.Contains(ReadFindingKind.UnknownFormat, kinds);
        Assert.Contains(ReadFindingKind.DeviceScale, kinds);
        Assert.Contains(ReadFindingKind.ReflectancePercent, kinds);
        Assert.Contains(ReadFindingKind.ConditionUnknown, kinds);
    }

    [Fact]
    public void Reads_Windows_1252_and_says_so()
    {
        var result = MeasurementFile.Read(Encoding.Latin1.GetBytes(Charts.Rgb(head: "PRINT_CONDITIONS \"115 g/m\u00B2\"\n")));
        Assert.NotNull(result.Set);
        Assert.Contains(result.Findings, f => f.Kind == ReadFindingKind.OldEncoding);
    }

    [Fact]
    public void Keeps_the_order_of_the_file_and_says_that_it_is_not_that_of_the_ids()
    {
        var lines = Charts.Rgb().Split('\n').ToList();
        var begin = lines.IndexOf("BEGIN_DATA");
        (lines[begin + 1], lines[begin + 3]) = (lines[begin + 3], lines[begin + 1]);
        var result = Charts.Read(string.Join('\n', lines));
        Assert.Equal(["3", "2", "1", "4", "5"], result.Set!.Patches.Select(p => p.Id));
        Assert.Contains(result.Findings, f => f.Kind == ReadFindingKind.ChartOrder);
    }

    [Fact]
    public void Puts_cut_device_values_back_to_whole_levels()
    {
        var text = new StringBuilder("CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID RGB_R RGB_G RGB_B LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n");
        for (var level = 0; level <= 255; level += 5)
        {
            var cut = Math.Floor(level / 2.55 * 100) / 100;
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"{level} {cut} {cut} {cut} 50 0 0\n");
        }

        var result = Charts.Read(text.Append("END_DATA").ToString());
        Assert.Contains(result.Findings, f => f.Kind == ReadFindingKind.DeviceRounded);
        Assert.All(result.Set!.Patches, (p, i) => Assert.Equal(5 * i / 255.0, p.Device[0]));
    }

    [Theory]
    [InlineData("PC7_", 7)]
    [InlineData("7CLR_", 7)]
    [InlineData("PC5_", 5)]
    public void Reads_any_number_of_inks(string prefix, int inks)
    {
        var names = string.Join(' ', Enumerable.Range(1, inks).Select(i => $"{prefix}{i}"));
        var values = string.Join(' ', Enumerable.Range(1, inks).Select(i => i * 10));
        var set = Charts.Set($"CGATS.17\nBEGIN_DATA_FORMAT\n{names} LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n{values} 50 1 2\nEND_DATA\n");
        Assert.Equal(DeviceSpace.Inks, set.Space);
        Assert.Equal(inks, set.Channels);
    }

    [Theory]
    [InlineData("SAMPLE_ID,R,G,B,L*,a*,b*\n1,255,255,255,95,0,-2\n2,0,0,0,5,0,0\n")]
    [InlineData("id;rgb_r;rgb_g;rgb_b;lab_l;lab_a;lab_b\n1;255;255;255;95,0;0;-2\n2;0;0;0;5;0;0\n")]
    [InlineData("# remark\n\"ID\"\tR\tG\tB\tX\tY\tZ\n1\t255\t255\t255\t84.47\t87.62\t74.6\n2\t0\t0\t0\t.5\t.55\t.46\n")]
    public void Reads_a_plain_table(string text)
    {
        var set = Charts.Set(text);
        Assert.Equal(1, set.Patches[0].Device[0]);
        Assert.InRange(set.Patches[0].Lab.L, 94.9, 95.1);
        Assert.Equal(0, set.Patches[1].Device[2]);
    }

    [Fact]
    public void Averages_repeats_and_counts_them()
    {
        var set = Charts.Set("R,G,B,LAB_L,LAB_A,LAB_B\n255,255,255,95,0,-2\n0,0,0,5,0,0\n255,255,255,93,2,0\n");
        var averaged = set.Averaged();
        Assert.Equal(2, averaged.Length);
        Assert.Equal((2, 94, 1, -1), (averaged[0].Count, averaged[0].Lab.L, averaged[0].Lab.A, averaged[0].Lab.B));
    }

    [Fact]
    public void Reads_back_what_it_wrote()
    {
        var set = Charts.Set(Charts.Rgb(head: "FILTER M1\n"));
        var back = Charts.Set(CgatsWriter.Write(set, "a \"room\"\nof ours", "test"));
        Assert.Equal(set.Condition, back.Condition);
        Assert.All(set.Patches.Zip(back.Patches), p =>
        {
            Assert.Equal(p.First.Id, p.Second.Id);
            Assert.Equal(p.First.Device[0], p.Second.Device[0], 1e-15);
            Assert.Equal(p.First.Lab.L, p.Second.Lab.L, 1e-12);
            Assert.Equal(p.First.Spectrum!.Values, p.Second.Spectrum!.Values);
        });
    }
}

using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Tests.Measurement;

/// <summary>CxF3 and CxF/X-4 in, by the structure of public descriptions; bad files are refused with their line.</summary>
public class CxfTest
{
    // The same numbers by another road: nothing but the last bits may differ.
    private const double Same = 1e-9;

    [Fact]
    public void A_chart_in_CxF_is_the_same_chart_as_in_CGATS()
    {
        var cxf = Charts.Set(CxfSamples.Rgb("M1_Daylight"));
        var cgats = Charts.Set(Charts.Rgb());
        Assert.Equal(MCondition.M1, cxf.Condition);
        Assert.Equal(DeviceSpace.Rgb, cxf.Space);
        Assert.True(cxf.HasSpectra);
        Assert.Equal(["A1", "A2", "A3", "A4", "A5"], cxf.Patches.Select(p => p.Name!));
        foreach (var (one, other) in cxf.Patches.Zip(cgats.Patches))
        {
            Assert.Equal(other.Lab.L, one.Lab.L, Same);
            Assert.Equal(other.Device[0], one.Device[0], 1e-6);
        }
    }

    [Fact]
    public void Of_several_conditions_the_one_is_taken_that_was_asked_for()
    {
        var bytes = System.Text.Encoding.UTF8.GetBytes(CxfSamples.Rgb("M0_Incandescent", "M1_Daylight", "M2_UVExcluded"));
        var first = MeasurementFile.Read(bytes);
        Assert.Equal(MCondition.M1, first.Set!.Condition);
        Assert.Contains(first.Findings, f => f.Kind is ReadFindingKind.MoreConditions && f.Message.Contains("M0, M1, M2", StringComparison.Ordinal));
        var second = MeasurementFile.Read(bytes, wanted: MCondition.M2).Set!;
        Assert.Equal(MCondition.M2, second.Condition);
        Assert.True(second.Patches[4].Lab.L < first.Set.Patches[4].Lab.L);
        Assert.Contains("no reading in M3", MeasurementFile.Read(bytes, wanted: MCondition.M3).Fault!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Lab_of_four_inks_is_read_for_D50_alone()
    {
        var set = Charts.Set(CxfSamples.Cmyk());
        Assert.Equal(DeviceSpace.Cmyk, set.Space);
        Assert.Equal([0.5, 0, 0, 1], set.Patches[1].Device);
        Assert.Equal(95, set.Patches[0].Lab.L);
        Assert.Contains("only D50", Charts.Read(CxfSamples.Cmyk("D65")).Fault!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_tints_of_a_spot_ink_are_read_on_the_first_ground()
    {
        var read = Charts.Read(CxfSamples.SpotInk());
        Assert.Equal(DeviceSpace.Inks, read.Set!.Space);
        Assert.Equal([0.0, 0.5, 1.0], read.Set.Patches.Select(p => p.Device.Single()));
        Assert.Contains(read.Findings, f => f.Kind is ReadFindingKind.MoreTables);
    }

    [Fact]
    public void Nuls_after_the_end_and_old_encodings_are_taken()
    {
        byte[] bytes = [.. System.Text.Encoding.UTF8.GetBytes(CxfSamples.Rgb("M0")), 0, 0, 0];
        Assert.Equal(MCondition.M0, MeasurementFile.Read(bytes).Set!.Condition);
        var old = System.Text.Encoding.Latin1.GetBytes(CxfSamples.Rgb("M0").Replace("\"UTF-8\"", "\"windows-1252\"", StringComparison.Ordinal).Replace("A1", "\u00c41", StringComparison.Ordinal));
        Assert.Equal("\u00c41", MeasurementFile.Read(old).Set!.Patches[0].Name);
    }

    public static TheoryData<string, int, string> Bad() => new()
    {
        { "<html><body/></html>", 1, "not CxF" },
        { "<CxF>", 1, "cut off" },
        { "<CxF></CxF>", 0, "no object" },
        { "<?xml version=\"1.0\"?>\n<!DOCTYPE CxF [<!ENTITY a \"aaaa\">]>\n<CxF>&a;</CxF>", 2, "document type" },
        { "<CxF><Object><Object/></Object></CxF>", 1, "inside of another" },
        { string.Concat(Enumerable.Repeat("<CxF>", 60)), 1, "deep" },
        { CxfSamples.Rgb("M0").Replace("StartWL=\"380\"", "", StringComparison.Ordinal), 6, "does not say the wavelength" },
        { CxfSamples.Rgb("M0").Replace("Increment=\"10\"", "Increment=\"x\"", StringComparison.Ordinal), 6, "not a usable number" },
        { CxfSamples.Rgb("M0").Replace("0.24 0.24 0.24", "0.24 z 0.24", StringComparison.Ordinal), 7, "not a usable number" },
        { CxfSamples.Rgb("M0").Replace("<cc:R>64</cc:R>", "", StringComparison.Ordinal), 7, "other device values" },
        { CxfSamples.Rgb("M0").Replace("<cc:MaxRange>255", "<cc:MaxRange>0", StringComparison.Ordinal), 6, "said to be 0" },
        { CxfSamples.Cmyk().Replace("<L>16</L>", "", StringComparison.Ordinal), 3, "is missing" },
    };

    [Theory]
    [MemberData(nameof(Bad))]
    public void A_bad_file_is_refused_with_its_line(string text, int line, string why)
    {
        var fault = Charts.Read(text).Fault!;
        Assert.Contains(why, fault.Message, StringComparison.Ordinal);
        Assert.Equal(line, fault.Line);
    }

    [Fact]
    public void A_file_beyond_any_limit_is_refused()
    {
        var bytes = System.Text.Encoding.UTF8.GetBytes(CxfSamples.Rgb("M0"));
        Assert.NotNull(MeasurementFile.Read(bytes, new(Rows: 5)).Set);
        Assert.NotNull(MeasurementFile.Read(bytes, new(Rows: 4)).Fault);
        Assert.NotNull(MeasurementFile.Read(bytes, new(Fields: 35)).Fault);
        Assert.NotNull(MeasurementFile.Read(bytes, new(Bytes: bytes.Length - 1)).Fault);
    }
}

using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Tests.Measurement;

/// <summary>Strips told from the names of patches.</summary>
public class StripPlacesTest
{
    [Theory]
    [InlineData("A1 A2 A3 A4 B1 B2 B3 B4", 4)]
    [InlineData("A1 A2 A3 A4 A5 B1 B2", 5)] // the last strip is shorter
    [InlineData("1A 1B 1C 1D 2A 2B 2C 2D", 4)] // numbers name the strips
    [InlineData("A1 B1 C1 D1 A2 B2 C2 D2", 4)]
    [InlineData("AA1 AA2 AA3 AA4 AB1 AB2 AB3 AB4", 4)]
    [InlineData("1 2 3 4 5 6 7 8", null)]
    [InlineData("A1 A2 A3 B1 B2 B3 C1 C2", null)] // too short to be one
    [InlineData("A1 A2 A3 A4 B1 B2 B3 B4 B5", null)] // longer than the first
    [InlineData("A1 A2 A3 A4 paper B2 B3 B4", null)]
    public void A_strip_is_a_run_of_the_part_that_changes_slowly(string names, int? length)
    {
        MeasurementSet Of(Func<string, Patch> patch) => new(DeviceSpace.Rgb, 3, MCondition.M0, [.. names.Split(' ').Select(patch)]);
        Assert.Equal(length, StripPlaces.Length(Of(n => new(n, [], default))));
        Assert.Equal(length, StripPlaces.Length(Of(n => new("x", [], default, null, n))));
    }
}

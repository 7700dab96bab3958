using System.Globalization;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Tests.Units;

public class LengthTextTest
{
    [Theory]
    [InlineData("610mm", 610_000)]
    [InlineData(" 61 cm ", 610_000)]
    [InlineData("1.117 m", 1_117_000)]
    [InlineData("24in", 609_600)]
    [InlineData("0.001", 1)]
    [InlineData("0mm", 0)]
    [InlineData("1000m", 1_000_000_000)]
    public void A_length_is_read_with_its_unit(string text, long micrometres) =>
        Assert.Equal(micrometres, LengthText.Read(text).Value?.Length.Micrometres);

    [Theory]
    [InlineData("de-DE")]
    [InlineData("en-GB")]
    public void The_point_is_the_decimal_mark_in_every_culture(string culture)
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
        try
        {
            Assert.Equal(1_500, LengthText.Read("1.5mm").Value?.Length.Micrometres);
            Assert.False(LengthText.Read("1,5mm").Granted);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("mm")]
    [InlineData("-5mm")]
    [InlineData("+5mm")]
    [InlineData("1e3mm")]
    [InlineData("NaN")]
    [InlineData("5 furlongs")]
    [InlineData("1 000mm")]
    public void What_is_no_length_is_refused(string text) => Assert.IsType<LengthText.NotALength>(LengthText.Read(text).Refusal);

    [Fact]
    public void Longer_than_any_paper_is_refused() =>
        Assert.IsType<LengthText.TooLong>(LengthText.Read("1000.001m").Refusal);

    [Fact]
    public void Finer_than_a_micrometre_is_refused() => Assert.IsType<LengthText.TooFine>(LengthText.Read("0.0005mm").Refusal);

    [Fact]
    public void A_number_of_any_length_is_refused_and_not_repeated_whole() =>
        Assert.True(LengthText.Read(new string('9', 10_000)).Refusal!.Message.Length < 200);

    [Theory]
    [InlineData("420x594mm", 420_000, 594_000)]
    [InlineData("16 × 20 in", 406_400, 508_000)]
    [InlineData("210X297", 210_000, 297_000)]
    public void A_size_takes_the_unit_at_its_end(string text, long width, long height) =>
        Assert.Equal(
            new LengthText.StatedSize(Length.FromMicrometres(width), Length.FromMicrometres(height)), LengthText.ReadSize(text).Value);

    [Theory]
    [InlineData("420mm")]
    [InlineData("420x-594mm")]
    [InlineData("1x2x3mm")]
    [InlineData("x")]
    public void What_is_no_size_is_refused(string text) => Assert.False(LengthText.ReadSize(text).Granted);
}

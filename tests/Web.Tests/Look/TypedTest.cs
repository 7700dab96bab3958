using System.Globalization;
using Goodsheet.Room.Units;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Tests.Look;

public sealed class TypedTest
{
    [Theory]
    [InlineData("en-GB", "25", 25L)]
    [InlineData("en-GB", "12,5", null)]
    [InlineData("en-GB", "12.5", null)]
    [InlineData("de-DE", "12.500", null)]
    [InlineData("de-DE", "12", 12L)]
    [InlineData("en-GB", "-3", -3L)] // read as it stands; the rule refuses it in words
    [InlineData("en-GB", "", null)]
    public void Sheets_are_whole_and_never_guessed(string culture, string typed, long? expected) =>
        Under(culture, () => Assert.Equal(expected, Typed.Quantity(typed, isRoll: false)));

    [Theory]
    [InlineData("en-GB", "11.2", 11_200L)]
    [InlineData("de-DE", "11,2", 11_200L)]
    [InlineData("en-GB", "11,2", null)]
    [InlineData("en-GB", "0", null)]
    public void Metres_of_roll_are_millimetres_in_the_ledger(string culture, string typed, long? expected) =>
        Under(culture, () => Assert.Equal(expected, Typed.Quantity(typed, isRoll: true)));

    [Fact]
    public void A_width_is_kept_to_the_micrometre() =>
        Under("en-GB", () => Assert.Equal(Length.FromMillimetres(380.5m), Typed.Millimetres("380.5")));

    private static void Under(string culture, Action check)
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
        try
        {
            check();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}

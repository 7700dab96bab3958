using CsCheck;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Tests.Runs;

/// <summary>The rule is the room's own: a sheet is wasted only if no good piece came from it. Common practice, no source.</summary>
public sealed class PaperBookingTest
{
    private const long Metre = 1_000_000;

    [Fact]
    public void A_sheet_with_one_good_print_is_a_good_sheet()
    {
        var booked = PaperBooking.Of(false, 2, [On(1, WasteCause.Dust), On(1, null), On(2, WasteCause.Curl), On(2, WasteCause.Curl)]);
        Assert.Equal(1, booked.Good);
        Assert.Equal([(WasteCause.Curl, 1L)], booked.Wasted);
    }

    [Fact]
    public void A_lost_sheet_has_the_cause_of_most_of_its_prints()
    {
        var booked = PaperBooking.Of(false, 1, [On(1, WasteCause.Dust), On(1, WasteCause.Nozzle), On(1, WasteCause.Nozzle)]);
        Assert.Equal([(WasteCause.Nozzle, 1L)], booked.Wasted);
    }

    [Fact]
    public void Of_a_roll_only_the_stretch_without_a_good_print_is_lost()
    {
        // Two prints side by side over the first metre, one good; then half a metre that is lost, then a good half.
        var booked = PaperBooking.Of(true, 2_000,
        [
            new(1, 0, Metre, null), new(1, 0, Metre, WasteCause.Colour), new(1, Metre, Metre * 3 / 2, WasteCause.HeadStrike), new(1, Metre * 3 / 2, 2 * Metre, null),
        ]);
        Assert.Equal(1_500, booked.Good);
        Assert.Equal([(WasteCause.HeadStrike, 500L)], booked.Wasted);
    }

    [Fact]
    public void A_roll_without_a_good_print_is_lost_whole_with_its_gaps() =>
        Assert.Equal([(WasteCause.Misfeed, 1_250L)], PaperBooking.Of(true, 1_250, [new(1, 0, Metre, WasteCause.Misfeed)]).Wasted);

    [Fact]
    public void What_is_good_and_what_is_lost_is_what_was_used() =>
        Gen.Select(Gen.Int[1, 6], Gen.Int[0, 10].Array[1, 20], Gen.Bool).Sample((sheets, fates, isRoll) =>
        {
            var pieces = fates.Select((f, i) => new PrintedPiece(isRoll ? 1 : (i % sheets) + 1, i * 100_000L, (i + 2) * 100_000L, f is 0 or 10 ? null : (WasteCause)f)).ToArray();
            var used = isRoll ? (fates.Length + 1) * 100L : pieces.Max(p => p.Sheet);
            var booked = PaperBooking.Of(isRoll, used, pieces);
            Assert.Equal(used, booked.Good + booked.Wasted.Sum(w => w.Quantity));
            Assert.Equal(pieces.All(p => p.Wasted is not null), booked.Good == 0);
        });

    private static PrintedPiece On(int sheet, WasteCause? wasted) => new(sheet, 0, Metre, wasted);
}

using Goodsheet.Room.Control;
using Goodsheet.Room.Printers;

namespace Goodsheet.Room.Tests.Printers;

public class SettingChoiceTest
{
    [Fact]
    public void The_deepest_black_wins_then_the_strongest_colours_then_the_least_ink_within_what_a_printer_repeats()
    {
        Assert.Equal(1, Best(Trial(1.60), Trial(1.64), Trial(1.30)));
        Assert.Equal(2, Best(Trial(1.64, 70), Trial(1.30, 80), Trial(1.62, 72)));
        Assert.Equal(1, Best(Trial(1.64, 70, 10), Trial(1.62, 69.5, -5)));
        Assert.Equal(0, Best(Trial(1.64, 70, 10), Trial(1.60, 70, -5))); // .04 of density is more than a printer repeats to
    }

    [Theory]
    [InlineData(TestFaults.HeadStrike, "platen gap")]
    [InlineData(TestFaults.Pooling, "pools")]
    [InlineData(TestFaults.Running, "run into each other")]
    [InlineData(TestFaults.Banding, "bands")]
    public void What_the_eye_sees_rules_a_test_out_however_deep_its_black(TestFaults seen, string word)
    {
        var judged = SettingChoice.Of([Trial(2, seen: seen), Trial(1.2)]);
        Assert.Contains(word, judged[0].Against, StringComparison.Ordinal);
        Assert.Equal([false, true], judged.Select(j => j.IsBest));
    }

    [Fact]
    public void Too_much_ink_is_ruled_out_by_number_and_what_was_not_measured_is_not_named_best()
    {
        Assert.NotNull(SettingChoice.Of([Trial(1.6, back: 1.1)])[0].Against);
        Assert.Null(SettingChoice.Of([Trial(1.6, back: 0.9)])[0].Against);
        Assert.NotNull(SettingChoice.Of([Trial(1.6, grain: 1.3)])[0].Against);
        var unread = Assert.Single(SettingChoice.Of([Trial(null)]));
        Assert.Equal((null, false, "not measured"), (unread.Against, unread.IsBest, unread.Why));
        Assert.Empty(SettingChoice.Of([]));
    }

    [Fact]
    public void A_cleaning_changes_little_and_a_new_head_or_a_move_asks_for_a_strip()
    {
        Assert.Equal([EventKind.NewHead, EventKind.Service, EventKind.Moved], Enum.GetValues<EventKind>().Where(PrinterEvent.AsksForStrip));
        Assert.Equal(Enum.GetValues<EventKind>().Length, Enum.GetValues<EventKind>().Select(PrinterEvent.Words).Distinct().Count());
    }

    private static int Best(params SettingTrial[] trials) => SettingChoice.Of(trials).Select((c, i) => (c.IsBest, i)).Single(x => x.IsBest).i;

    private static SettingTrial Trial(double? black, double solids = 70, int ink = 0, TestFaults seen = TestFaults.None, double back = 0, double grain = 0.2) => new()
    {
        Id = Guid.CreateVersion7(),
        Paper = new("p"),
        Printer = new("q"),
        MediaSetting = "Art",
        InkLoad = ink,
        PlatenGap = "",
        Seen = seen,
        DMax = black,
        Solids = solids,
        StepsBack = back,
        Grain = grain,
        At = DateTimeOffset.UnixEpoch,
        By = new("Mira"),
    };
}

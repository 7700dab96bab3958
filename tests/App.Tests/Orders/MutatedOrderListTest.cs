using Goodsheet.App.Orders;

namespace Goodsheet.App.Tests.Orders;

/// <summary>A list of orders damaged at random: every line is read whole or refused with a reason, or the list is refused with a sentence.</summary>
public sealed class MutatedOrderListTest
{
    private static readonly int Rounds = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 100_000 : 3_000;

    private static readonly string[] Seeds =
    [
        $"{OrderListCsv.Heading}\nAn invented shop,S1,a.tif,Low Water,test-cotton,300,200.5,10,,,1,2026-03-06 14:30\nAn invented shop,,b.tif,\"Two, pears\",test-cotton,210,297,,bleed,3,2,2026-03-07\n",
        $"\uFEFF{OrderListCsv.Heading.Replace(',', ';')}\r\nAn invented gallery;G-7;c.tif;Dunes;test-cotton;300,5;200;0;wrap;40;12;2026-03-29T02:30\r\n",
    ];

    private static readonly string[] Words =
        ["\n", ",", ";", "\"", "\t", "1e309", "-", "NaN", "99999999999999999999", "2026-02-30", "0001-01-01", "9999-12-31 23:59", "\0", "\r", "''", "=1+1", "\uFEFF", "٣", "../room.db", "wrap", "bleed"];

    [Fact]
    public void Is_read_line_by_line_or_refused_with_a_sentence()
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById("Europe/London"); // 2026-03-29T02:30 is in its spring
        var random = new Random(74); // seeded: a failure names its round, which replays
        var (fine, wrong, refused) = (0, 0, 0);
        for (var round = 0; round < Rounds; round++)
        {
            var text = Seeds[random.Next(Seeds.Length)];
            for (var change = random.Next(1, 6); change > 0; change--)
            {
                text = Changed(text, random);
            }

            try
            {
                var outcome = OrderListCsv.Read(text, zone);
                Assert.True(outcome.Granted || !string.IsNullOrWhiteSpace(outcome.Refusal.Message));
                Assert.All(outcome.Value ?? [], l => Assert.True(l.Asks is null != l.Wrong is null && l.Wrong is not ""));
                Assert.All((outcome.Value ?? []).Select(l => l.Asks).OfType<OrderListLine.Order>(), o => Assert.Null(o.Print.Wrong()));
                (fine, wrong, refused) = !outcome.Granted ? (fine, wrong, refused + 1)
                    : outcome.Value.Any(l => l.Wrong is not null) ? (fine, wrong + 1, refused) : (fine + 1, wrong, refused);
            }
            catch (Exception e) when (e is not Xunit.Sdk.XunitException)
            {
                Assert.Fail($"round {round}: {e}\n{text}");
            }
        }

        Assert.True(fine > 0 && wrong > 0 && refused > 0, $"{fine} fine, {wrong} wrong, {refused} refused: the changes test nothing");
    }

    private static string Changed(string text, Random random)
    {
        var at = random.Next(text.Length + 1);
        var length = Math.Min(random.Next(1, 20), text.Length - at);
        return random.Next(4) switch
        {
            0 => text.Remove(at, length),
            1 => text.Insert(at, Words[random.Next(Words.Length)]),
            2 => text.Insert(at, text.Substring(at, length)),
            _ => text.Insert(at, $"{(char)random.Next(1, 0x300)}"),
        };
    }
}

using Goodsheet.App.Care;

namespace Goodsheet.App.Tests.Care;

/// <summary>A logger's file damaged at random: read with readings in order, or refused with a sentence.</summary>
public sealed class MutatedLoggerTest
{
    private static readonly int Rounds = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 100_000 : 2_000;

    private static readonly string[] Seeds =
    [
        "Logger 7\nTime,Temperature (°C),Humidity (%RH)\n2026-03-02 08:00,20.5,48\n2026-03-02 08:10,21.5 °C,50%\n2026-03-02 08:20,21,50\n",
        "date;time;temp_F;rh\n03/04/2026;8:00 AM;68,5;48\n13/04/2026;9:00 PM;77;48\n",
        "\uFEFF\"time\"\t\"temp c\"\t\"dew\"\t\"hum\"\r\n\"2026-10-25T02:30:00+01:00\"\t20\t10\t48\r\n",
    ];

    private static readonly string[] Words = ["\n", ",", ";", "\"", "\t", "1e309", "-", "°F", "NaN", "99999999999999999999", "0000-00-00", "\0", "time", "2026-02-30"];

    [Fact]
    public void Is_read_in_order_or_refused_with_a_sentence()
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById("Europe/London");
        var random = new Random(70); // seeded: a failure names its round, which replays
        var (read, refused) = (0, 0);
        for (var round = 0; round < Rounds; round++)
        {
            var text = Seeds[random.Next(Seeds.Length)];
            for (var change = random.Next(1, 6); change > 0; change--)
            {
                text = Changed(text, random);
            }

            var outcome = LoggerCsv.Read(text, zone, new(TemperatureUnit.Celsius, DateOrder.DayFirst));
            Assert.True(outcome.Granted || !string.IsNullOrWhiteSpace(outcome.Refusal.Message), $"round {round}");
            Assert.True(!outcome.Granted || outcome.Value.Readings.All(r => double.IsFinite(r.Temperature) && double.IsFinite(r.Humidity)), $"round {round}");
            Assert.True(!outcome.Granted || outcome.Value.Readings.Zip(outcome.Value.Readings.Skip(1)).All(p => p.First.At <= p.Second.At), $"round {round}");
            (read, refused) = outcome.Granted ? (read + 1, refused) : (read, refused + 1);
        }

        Assert.True(read > 0 && refused > 0, $"{read} read, {refused} refused: the changes test nothing");
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

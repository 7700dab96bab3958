using Goodsheet.App.Care;

namespace Goodsheet.App.Tests.Care;

/// <summary>Invented files in the ways loggers write; what is found must be said.</summary>
public sealed class LoggerCsvTest
{
    private static readonly TimeZoneInfo London = TimeZoneInfo.FindSystemTimeZoneById("Europe/London");

    [Fact]
    public void A_plain_file_is_read_on_the_rooms_own_clock()
    {
        var file = Read("Logger 7\nTime,Temperature (°C),Humidity (%RH)\n2026-03-02 08:00,20.5,48\n2026-07-02 08:00:30,21.5 °C,50%\n");
        Assert.Equal([new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero), new(2026, 7, 2, 7, 0, 30, TimeSpan.Zero)], file.Readings.Select(r => r.At));
        Assert.Equal([(20.5, 48), (21.5, 50)], file.Readings.Select(r => (r.Temperature, r.Humidity)));
        Assert.Empty(file.Findings);
    }

    [Fact]
    public void Fahrenheit_by_the_heading_is_turned_and_said_and_without_it_is_asked()
    {
        // 68 °F is 20 °C and 77 °F is 25 °C by the definition of the scale.
        var file = Read("date,time,temp_F,rh\n2026-03-02,08:00,68,48\n2026-03-02,09:00,77,48\n");
        Assert.Equal([20.0, 25.0], file.Readings.Select(r => r.Temperature));
        Assert.Contains("°F", Assert.Single(file.Findings));
        const string Silent = "time,temp,humidity\n2026-03-02 08:00,68,48\n2026-03-02 09:00,77,48\n";
        Assert.Contains("does not say its unit", Refused(Silent));
        Assert.Contains("though the column says °C", Refused(Silent.Replace("temp", "temp c")));
        Assert.Equal([20.0, 25.0], Read(Silent, new(TemperatureUnit.Fahrenheit)).Readings.Select(r => r.Temperature));
        Assert.Contains("read as °C", Assert.Single(Read(Silent.Replace("68", "20").Replace("77", "21")).Findings));
    }

    [Fact]
    public void Day_and_month_are_told_apart_by_a_line_that_shows_it_or_are_asked()
    {
        const string Open = "time;temp (C);hum\n03/04/2026 08:00;20,5;48\n04/04/2026 08:00;21;48\n";
        Assert.Contains("Say which comes first", Refused(Open));
        Assert.Equal(new DateTime(2026, 4, 3), Read(Open, new(Order: DateOrder.DayFirst)).Readings[0].At.Date);
        Assert.Equal(new DateTime(2026, 3, 4), Read(Open, new(Order: DateOrder.MonthFirst)).Readings[0].At.Date);
        Assert.Contains("line 4", Assert.Single(Read(Open + "13/04/2026 08:00;21;48\n").Findings));
        Assert.Contains("month first", Read(Open + "04/13/2026 8:00 AM;21;48\n").Findings[0]);
        Assert.Contains("does not go with", Refused(Open + "13/04/2026 08:00;21;48\n", new(Order: DateOrder.MonthFirst)));
        Assert.Contains("Line 4 has the day first", Refused(Open + "13/04/2026 08:00;21;48\n04/13/2026 08:00;21;48\n"));
    }

    [Fact]
    public void Order_repeats_contradictions_and_gaps_are_found_and_said()
    {
        var file = Read("time,temp c,rh\n2026-03-02 08:00,20,48\n2026-03-02 08:20,20,48\n2026-03-02 08:10,20,48\n2026-03-02 08:10,20,48\n2026-03-02 08:20,22,48\n2026-03-02 08:30,20,48\n2026-03-02 12:00,20,48\n");
        Assert.Equal(5, file.Readings.Count);
        Assert.Equal(file.Readings.OrderBy(r => r.At), file.Readings);
        Assert.Equal(20, file.Readings[2].Temperature); // the earlier line stands
        Assert.Equal(TimeSpan.FromMinutes(210), Assert.Single(file.Gaps).Silent);
        Assert.Collection(file.Findings, f => Assert.Contains("first line 4", f), f => Assert.Contains("counted once", f), f => Assert.Contains("first line 6", f));
        Assert.Contains("newest reading came first", Assert.Single(Read("time,temp c,rh\n2026-03-02 10:00,20,48\n2026-03-02 09:00,20,48\n2026-03-02 08:00,20,48\n").Findings));
    }

    [Fact]
    public void A_few_broken_lines_are_left_out_by_number_and_many_refuse_the_file()
    {
        var good = string.Concat(Enumerable.Range(0, 30).Select(m => $"2026-03-02 08:{m:00},20,48\n"));
        var file = Read($"time,temp c,rh\n{good}2026-02-30 08:00,20,48\n2026-03-02 09:00,20,148\n2026-03-02 09:01,---,48\n");
        Assert.Equal(30, file.Readings.Count);
        Assert.Contains("line 32: “2026-02-30 08:00” is no time; line 33: 20 °C and 148 %", Assert.Single(file.Findings));
        Assert.Contains("3 of 4 lines", Refused("time,temp c,rh\n2026-03-02 08:00,20,48\nx,20,48\ny,20,48\nz,20,48\n"));
    }

    [Fact]
    public void The_hour_that_comes_twice_is_told_apart_by_order_and_the_one_left_out_is_said()
    {
        // In London the clocks went back on 25 October 2026 at 01:00 UTC, forward on 29 March 2026 at 01:00 UTC (tz database).
        var autumn = Read("time,temp c,rh\n2026-10-25 01:15,20,48\n2026-10-25 01:45,20,48\n2026-10-25 01:15,20,49\n2026-10-25 01:45,20,49\n");
        Assert.Equal([15, 45, 75, 105], autumn.Readings.Select(r => (r.At - new DateTimeOffset(2026, 10, 25, 0, 0, 0, TimeSpan.Zero)).TotalMinutes));
        Assert.Contains("twice", Assert.Single(autumn.Findings));
        var spring = Read("time,temp c,rh\n2026-03-29 00:30,20,48\n2026-03-29 01:30,20,48\n2026-03-29 02:30,20,48\n");
        Assert.Contains("leaves out", spring.Findings[0]);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero), Read("time,temp c,rh\n2026-03-02T08:00:00+02:00,20,48\n").Readings[0].At);
    }

    [Theory]
    [InlineData("")]
    [InlineData("time,temp\n2026-03-02 08:00,20\n")]
    [InlineData("time,temp c,rh\n")]
    [InlineData("time,temp c,rh\n\"2026-03-02 08:00,20,48\n")]
    [InlineData("\0\u0001\u0002,,,\n")]
    public void What_is_no_loggers_file_is_refused(string text) => Refused(text);

    [Fact]
    public void Random_bytes_in_a_good_file_never_fault()
    {
        var random = new Random(20260302);
        var good = "time,temp c,rh\n" + string.Concat(Enumerable.Range(0, 40).Select(m => $"2026-03-02 08:{m:00},20.5,48\n"));
        for (var n = 0; n < 2_000; n++)
        {
            var letters = good.ToCharArray();
            for (var k = random.Next(1, 6); k > 0; k--)
            {
                letters[random.Next(letters.Length)] = (char)random.Next(0, 256);
            }

            LoggerCsv.Read(new(letters), London, new());
        }
    }

    private static LoggerFile Read(string text, LoggerChoices? choices = null)
    {
        var outcome = LoggerCsv.Read(text, London, choices ?? new());
        Assert.Null(outcome.Refusal);
        return outcome.Value!;
    }

    private static string Refused(string text, LoggerChoices? choices = null) =>
        Assert.IsType<NotALoggersFile>(LoggerCsv.Read(text, London, choices ?? new()).Refusal).Message;
}

using System.Net;
using Goodsheet.App.Care;

namespace Goodsheet.Web.Tests.Care;

/// <summary>The rounds and the air, over HTTP as a browser sends them.</summary>
public sealed class CarePagesTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_round_is_ticked_step_by_step_on_the_phone_and_a_step_left_out_needs_a_word()
    {
        await using var room = await ServedRoom.OpenAsync();
        await room.Room.FurnishedAsync();
        await room.Use<TakeUsualCare>().RunAsync(Cancel);
        using var http = room.Browser();
        Assert.Contains("End of day", await http.GetStringAsync("/", Cancel));

        var half = await (await http.SendFormAsync("/care", "tick-1", ("Tick.Command", Guid.NewGuid().ToString()), ("Tick.Task", "1"), ("Tick.Steps", "0"), ("Tick.Steps", "2"), ("Tick.Note", ""))).TextAsync();
        Assert.Contains("2 steps are not ticked", half);
        Assert.Contains("name=\"Tick.Steps\" value=\"2\" checked", half);
        Assert.DoesNotContain("name=\"Tick.Steps\" value=\"1\" checked", half);

        var whole = await (await http.SendFormAsync("/care", "tick-1", ("Tick.Command", Guid.NewGuid().ToString()), ("Tick.Task", "1"), ("Tick.Steps", "0"), ("Tick.Steps", "1"), ("Tick.Steps", "2"), ("Tick.Steps", "3"), ("Tick.Note", ""))).TextAsync();
        Assert.Contains("End of day: done.", whole);
        Assert.DoesNotContain("End of day", await http.GetStringAsync("/", Cancel));
    }

    [Fact]
    public async Task A_reading_is_typed_and_drawn_with_its_words_and_comes_out_as_csv()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        var page = await (await http.SendFormAsync("/care/air", "note", ("Note.Command", Guid.NewGuid().ToString()), ("Note.Celsius", "21.5"), ("Note.Humidity", "35"))).TextAsync();
        Assert.Contains("outside what the room wishes", page);
        Assert.Contains("common practice, no source", page);
        Assert.Contains("Humidity left its band on 1 of 1 days read", page);
        Assert.Contains("role=\"img\"", page);
        Assert.Contains(",21.5,35", await http.GetStringAsync("/care/air.csv", Cancel));
        Assert.Contains("Type temperature and humidity both", await (await http.SendFormAsync("/care/air", "note", ("Note.Celsius", "21.5"))).TextAsync());
    }

    [Fact]
    public async Task A_loggers_file_is_looked_at_first_and_taken_in_by_a_second_step()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        using var file = new StringContent("time,temp,rh\n03/04/2026 08:00,68,48\n03/04/2026 09:00,70,48\n");
        using var form = new MultipartFormDataContent { { file, "file", "logger.csv" } };
        var came = await http.PostAsync("/files/bring-in?then=/care/air", form, Cancel);
        Assert.Equal(HttpStatusCode.Found, came.StatusCode);
        var address = came.Headers.Location!.OriginalString;
        Assert.Contains("Say which comes first", await (await http.GetAsync(address, Cancel)).TextAsync());
        var taken = await (await http.SendFormAsync(address, "take", ("Take.Unit", "Fahrenheit"), ("Take.Order", "DayFirst"))).TextAsync();
        Assert.Contains("2 readings taken in", taken);
        Assert.Contains("70 °F became 21.1 °C", taken);
    }

    [Theory]
    [InlineData("/care")]
    [InlineData("/care/air")]
    [InlineData("/care/bands")]
    [InlineData("/care/tasks/1")]
    [InlineData("/care/tasks/99")]
    public async Task Every_page_of_care_opens(string page)
    {
        await using var room = await ServedRoom.OpenAsync();
        await room.Use<TakeUsualCare>().RunAsync(Cancel);
        using var http = room.Browser();
        var answer = await http.GetAsync(page, Cancel);
        Assert.Equal(page.EndsWith("99", StringComparison.Ordinal) ? HttpStatusCode.NotFound : HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("<h1>", await answer.TextAsync());
    }
}

using System.Net;

namespace Goodsheet.Web.Tests;

/// <summary>A form that comes with most of its fields missing is answered in words, never by a fault.</summary>
public sealed class HalfFormTest
{
    [Theory]
    [InlineData("/papers/new", "paper", "Paper.Grammage", "230")]
    [InlineData("/printers/new", "printer", "Printer.Ppi", "360")]
    [InlineData("/people", "person", "New.Other", "")]
    [InlineData("/buying/suppliers/new", "supplier", "Form.Minimum", "1")]
    [InlineData("/charts/new", "chart", "Chart.Patches", "100")]
    [InlineData("/readings/new?file=0000000000000000000000000000000000000000000000000000000000000000&name=a.txt", "chart", "Chart.Paper", "invented")]
    [InlineData("/orders/new?file=0000000000000000000000000000000000000000000000000000000000000000&name=a.txt", "order", "Wish.Copies", "1")]
    [InlineData("/settings", "settings", "Given.Name", "An invented room")]
    [InlineData("/shelf/put-away", "box", "Box.ForTestsOnly", "true")]
    public async Task A_form_with_one_field_of_all_is_answered_in_words(string page, string form, string field, string value)
    {
        await using var room = await ServedRoom.OpenAsync();
        await room.Room.FurnishedAsync();
        using var http = room.Browser();
        var answer = await http.SendFormAsync(page, form, (field, value));
        Assert.True(answer.StatusCode is HttpStatusCode.OK or HttpStatusCode.BadRequest, $"{answer.StatusCode}");
    }
}

using System.Reflection;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Components;
using Goodsheet.App;
using Goodsheet.App.Settings;
using Goodsheet.App.Tests;

namespace Goodsheet.Web.Tests.Look;

/// <summary>A room may write 1.234,5; a drawing and a style may not.</summary>
public sealed partial class NumbersTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Pages_write_numbers_as_the_room_does_and_drawings_as_browsers_read_them()
    {
        await using var room = await ServedRoom.OpenAsync();
        await room.Room.FurnishedAsync();
        Assert.True((await room.Use<ChangeSettings>().RunAsync(new("An invented room", "Asia/Kolkata", "en-DE", new(8, 0), new(18, 0)), Cancel)).Granted);
        using var http = room.Browser();
        var pages = typeof(Shell).Assembly.GetTypes().SelectMany(t => t.GetCustomAttributes<RouteAttribute>().Select(r => r.Template))
            .Where(t => !t.Contains('{', StringComparison.Ordinal)).Append($"/papers/{FreshRoom.Cotton}").ToList();
        foreach (var page in pages)
        {
            var html = await http.GetStringAsync(page, Cancel);
            Assert.True(!Broken().IsMatch(html), $"{page}: {Broken().Match(html).Value}");
        }

        Assert.Contains("value=\"1,5\"", await http.GetStringAsync("/papers/line-up", Cancel), StringComparison.Ordinal);
        Assert.Equal("Asia/Kolkata", room.Use<TimeProvider>().LocalTimeZone.Id);
        Assert.Same(room.Use<RoomClock>(), room.Use<TimeProvider>());
    }

    [GeneratedRegex("""\b(?:x|y|cx|cy|r|x1|x2|y1|y2|width|height|min|max|step)="-?\d+,\d+"|style="[^"]*:\s*-?\d+,\d+(?:%|px|rem|mm|;|")""")]
    private static partial Regex Broken();
}

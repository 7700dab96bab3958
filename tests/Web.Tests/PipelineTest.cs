using System.Net;
using System.Text.RegularExpressions;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.App.Tests;

namespace Goodsheet.Web.Tests;

public sealed class PipelineTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/", 200)]
    [InlineData("/_content/Goodsheet.Web/goodsheet.css", 200)]
    [InlineData("/no/such/page", 404)]
    public async Task Every_answer_says_what_a_browser_may_do(string path, int status)
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        var answer = await http.GetAsync(path, Cancel);
        Assert.Equal(status, (int)answer.StatusCode);
        var policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("script-src 'self';", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal("same-origin", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Theory]
    [InlineData("/papers/nothing-of-the-kind")]
    [InlineData("/printers/nothing-of-the-kind/load")]
    [InlineData("/printers/nothing-of-the-kind/files")]
    [InlineData("/shelf/lots/999999")]
    [InlineData("/orders/999999")]
    [InlineData("/orders/999999/1/proof")]
    [InlineData("/runs/999999")]
    [InlineData("/runs/999999/sheets/1.tif")]
    [InlineData("/profiles/999999")]
    [InlineData("/readings/999999")]
    [InlineData("/editions/999999")]
    [InlineData("/people/nobody")]
    [InlineData("/buying/suppliers/nobody")]
    [InlineData("/work/00000000-0000-0000-0000-000000000001")]
    public async Task What_is_not_in_the_room_is_not_found_in_words_and_by_status(string path)
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        var answer = await http.GetAsync(path, Cancel);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.NotEmpty(await answer.Content.ReadAsStringAsync(Cancel));
    }

    [Theory]
    [InlineData("/readings/1/profile")]
    [InlineData("/orders/1/1/prepare")]
    [InlineData("/files/check")]
    public async Task A_form_without_fields_asks_for_its_work(string path)
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        using var nothing = new FormUrlEncodedContent([]);
        var answer = await http.PostAsync(path, nothing, Cancel);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.StartsWith("/work/", answer.Headers.Location!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task No_page_carries_a_script_or_a_sheet_of_styles_in_itself()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        var page = await http.GetStringAsync("/shelf", Cancel);
        Assert.DoesNotContain("<style", page, StringComparison.Ordinal);
        Assert.Single(Regex.Matches(page, "<script"));
        Assert.DoesNotContain("onclick", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_font_is_fetched_by_one_name()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        var preload = Regex.Match(await http.GetStringAsync("/", Cancel), "rel=\"preload\" href=\"([^\"]+)\"").Groups[1].Value;
        var sheet = await http.GetStringAsync("/_content/Goodsheet.Web/goodsheet.css", Cancel);
        Assert.Contains($"url({preload["_content/Goodsheet.Web/".Length..]})", sheet, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync(preload, Cancel)).StatusCode);
    }

    [Theory]
    [InlineData("POST", "/no/such/page", 404, "This page is not here")]
    [InlineData("GET", "/people/pick", 404, "This page is not here")]
    [InlineData("POST", "/papers/new", 400, "This cannot be read")] // no token, no form
    public async Task What_cannot_be_answered_is_said_in_words(string method, string path, int status, string words)
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        using var request = new HttpRequestMessage(new(method), path) { Content = method is "POST" ? new FormUrlEncodedContent([new("a", "b")]) : null };
        var answer = await http.SendAsync(request, Cancel);
        Assert.Contains((int)answer.StatusCode, (int[])[status, status is 404 ? 405 : status]);
        Assert.Contains(words, await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_sites_form_is_refused_in_words()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        http.DefaultRequestHeaders.Add("Origin", "http://elsewhere.example");
        using var form = new FormUrlEncodedContent([new("room", "dim")]);
        var answer = await http.PostAsync("/light", form, Cancel);
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Contains("Not from this screen", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_too_large_is_refused_in_words()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        http.DefaultRequestHeaders.ExpectContinue = true;
        using var form = new FormUrlEncodedContent([new("Paper.Name", new('x', (int)BodySize.LargestForm + 1))]);
        var answer = await http.PostAsync("/papers/new", form, Cancel);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Contains("That is too large", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_fault_shows_a_reference_and_nothing_of_its_cause()
    {
        await using var room = await ServedRoom.OpenAsync();
        await using (var db = room.Store.Open())
        {
            await db.Database.ExecuteSqlRawAsync("PRAGMA foreign_keys = OFF; DROP TABLE class_rule", Cancel);
        }

        using var http = room.Browser();
        var answer = await http.GetAsync("/papers/classes", Cancel);
        var text = await answer.TextAsync();
        Assert.Equal(HttpStatusCode.InternalServerError, answer.StatusCode);
        Assert.Matches("<b class=\"n\">[0-9A-F]{8}</b>", text);
        Assert.DoesNotContain("class_rule", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync("/people", Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_full_disk_is_said_in_words_and_leaves_nothing_half_written()
    {
        await using var room = await ServedRoom.OpenAsync(through: Full);
        using var http = room.Browser();
        HttpResponseMessage answer;
        var kept = 0;
        do
        {
            answer = await http.SendFormAsync("/people", "person", ("New.Name", $"Somebody {kept++}"));
        }
        while (answer.StatusCode is HttpStatusCode.OK && kept < 2000);
        Assert.Equal(HttpStatusCode.InsufficientStorage, answer.StatusCode);
        Assert.Contains("The room’s disk is full", await answer.TextAsync(), StringComparison.Ordinal);
        await using var db = room.Store.Open();
        Assert.Equal(kept - 1, await db.People.CountAsync(Cancel)); // all that was acknowledged, and no more
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync("/people", Cancel)).StatusCode);
    }

    [Theory]
    [InlineData("abc", "“abc” cannot be read as a whole number.")]
    [InlineData("12.5", "“12.5” cannot be read as a whole number.")]
    public async Task What_is_typed_and_cannot_be_read_is_told_at_its_field(string typed, string words)
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        var text = await (await http.SendFormAsync("/papers/new", "paper", ("Paper.Name", "Invented Satin"), ("Paper.Grammage", typed))).TextAsync();
        Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Matches("<input[^>]*id=\"grammage\"[^>]*aria-describedby=\"grammage-err\"", text.Replace("aria-invalid=\"true\"", "", StringComparison.Ordinal));
        Assert.Contains("value=\"Invented Satin\"", text, StringComparison.Ordinal); // what was right is kept
    }

    [Fact]
    public async Task The_light_follows_the_device_again_when_asked_to()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        foreach (var (light, shown) in ((string, bool)[])[("dim", true), ("auto", false)])
        {
            using var form = new FormUrlEncodedContent([new("room", light), new("back", "/shelf")]);
            Assert.Equal("/shelf", (await http.PostAsync("/light", form, Cancel)).Headers.Location?.ToString());
            Assert.Equal(shown, (await http.GetStringAsync("/", Cancel)).Contains("data-room=\"dim\"", StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task Work_that_is_not_there_is_not_waited_for()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        Assert.Equal(HttpStatusCode.NotFound, (await http.GetAsync($"/work/{Guid.NewGuid()}/events", Cancel)).StatusCode);
    }

    // SQLite answers a file that may not grow as it answers a full disk.
    private static RoomStore Full(FreshRoom room) => new(
        () =>
        {
            var db = room.Store.Open();
            var connection = (SqliteConnection)db.Database.GetDbConnection();
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA page_count";
            var pages = (long)command.ExecuteScalar()!;
            command.CommandText = $"PRAGMA max_page_count = {Math.Max(pages, 120)}";
            command.ExecuteNonQuery();
            return db;
        },
        RoomStore.Kind.Sqlite, room.Store.Connection);
}

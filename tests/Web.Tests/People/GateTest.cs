using System.Net;
using Goodsheet.App.People;
using Goodsheet.App.Settings;

namespace Goodsheet.Web.Tests.People;

public sealed class GateTest
{
    private const string Pin = "842196";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static TheoryData<string> WhatStandsBetween =>
    [
        "Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Forwarded-Proto", "X-Original-For", "X-Real-IP", "Via",
    ];

    [Fact]
    public async Task At_the_desk_a_name_is_picked_and_only_one_that_is_there()
    {
        await using var room = await WithMiraAsync();
        using var desk = room.Browser();
        Assert.Equal(HttpStatusCode.OK, (await desk.GetAsync("/", Cancel)).StatusCode);
        using var mira = new FormUrlEncodedContent([new("name", "Mira")]);
        var picked = await desk.PostAsync("/people/pick", mira, Cancel);
        Assert.Contains(picked.Headers.GetValues("Set-Cookie"), c => c.Contains("httponly", StringComparison.Ordinal) && c.Contains("samesite=strict", StringComparison.Ordinal));
        Assert.Contains("At this page: Mira", await desk.GetStringAsync("/people", Cancel), StringComparison.Ordinal);

        using var stranger = room.Browser();
        stranger.DefaultRequestHeaders.Add("Cookie", "goodsheet-who=Nobody");
        Assert.Contains("At this page: somebody at the desk", await stranger.GetStringAsync("/people", Cancel), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(WhatStandsBetween))]
    public async Task What_came_through_a_proxy_is_not_the_desk(string header)
    {
        await using var room = await WithMiraAsync();
        using var http = room.Browser();
        http.DefaultRequestHeaders.TryAddWithoutValidation(header, "127.0.0.1");
        var answer = await http.GetAsync("/shelf?sort=paper", Cancel);
        Assert.Equal("/people/sign-in?then=%2Fshelf%3Fsort%3Dpaper", answer.Headers.Location?.ToString());
        http.DefaultRequestHeaders.Accept.Clear();
        Assert.Equal(HttpStatusCode.Unauthorized, (await http.GetAsync("/shelf", Cancel)).StatusCode);
        using var name = new FormUrlEncodedContent([new("name", "Mira")]);
        Assert.Equal(HttpStatusCode.Unauthorized, (await http.PostAsync("/people/pick", name, Cancel)).StatusCode);
    }

    [Fact]
    public async Task What_speaks_as_no_browser_does_is_not_the_desk()
    {
        await using var room = await WithMiraAsync();
        using var http = room.Browser();
        using var old = new HttpRequestMessage(HttpMethod.Get, "/") { Version = HttpVersion.Version10, VersionPolicy = HttpVersionPolicy.RequestVersionExact };
        Assert.Equal(HttpStatusCode.Redirect, (await http.SendAsync(old, Cancel)).StatusCode);
    }

    [Theory]
    [InlineData("elsewhere.example", HttpStatusCode.MisdirectedRequest)] // points at this machine, and is not ours
    [InlineData("192.0.2.1", HttpStatusCode.MisdirectedRequest)]
    [InlineData("localhost.elsewhere.example", HttpStatusCode.MisdirectedRequest)]
    [InlineData("localhost", HttpStatusCode.OK)]
    [InlineData("127.0.0.1", HttpStatusCode.OK)]
    [InlineData("[::1]", HttpStatusCode.OK)]
    [InlineData("room.example", HttpStatusCode.Redirect)] // the stated address: ours, and not the desk
    [InlineData("ROOM.example:81", HttpStatusCode.Redirect)]
    public async Task The_room_answers_to_its_own_names_only(string host, HttpStatusCode expected)
    {
        await using var room = await WithMiraAsync();
        await room.Use<StateAddress>().RunAsync(new("http://room.example/"), Cancel);
        using var http = room.Browser();
        http.DefaultRequestHeaders.Host = host;
        Assert.Equal(expected, (await http.GetAsync("/", Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_screen_signs_in_works_under_its_name_and_signs_out()
    {
        await using var room = await WithMiraAsync();
        using var http = room.Browser(fromElsewhere: true);
        var wrong = await http.SendFormAsync("/people/sign-in?then=/shelf", "sign-in", ("Who.Name", "Mira"), ("Who.Secret", "842197"));
        var text = await wrong.TextAsync();
        Assert.Contains("do not belong together", text, StringComparison.Ordinal);
        Assert.DoesNotContain("842197", text, StringComparison.Ordinal);

        var right = await http.SendFormAsync("/people/sign-in?then=/shelf", "sign-in", ("Who.Name", "Mira"), ("Who.Secret", Pin));
        Assert.Equal("/shelf", right.Headers.Location?.OriginalString.Replace(room.Address.ToString(), "/", StringComparison.Ordinal));
        Assert.Contains(right.Headers.GetValues("Set-Cookie"), c => c.StartsWith("goodsheet-device=", StringComparison.Ordinal)
            && c.Contains("httponly", StringComparison.Ordinal) && c.Contains("samesite=lax", StringComparison.Ordinal));
        Assert.Contains("At this page: Mira", await http.GetStringAsync("/people", Cancel), StringComparison.Ordinal);

        await http.PostAsync("/people/sign-out", null, Cancel);
        Assert.Equal(HttpStatusCode.Redirect, (await http.GetAsync("/people", Cancel)).StatusCode);
    }

    [Theory]
    [InlineData("//elsewhere.example")]
    [InlineData("/\\elsewhere.example")]
    [InlineData("https://elsewhere.example")]
    public async Task Signing_in_leads_to_no_other_site(string then)
    {
        await using var room = await WithMiraAsync();
        using var http = room.Browser(fromElsewhere: true);
        var answer = await http.SendFormAsync($"/people/sign-in?then={Uri.EscapeDataString(then)}", "sign-in", ("Who.Name", "Mira"), ("Who.Secret", Pin));
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.DoesNotContain("elsewhere", answer.Headers.Location!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_phone_is_paired_by_the_desks_code_works_and_looks_after_no_people_and_is_shut_out()
    {
        await using var room = await WithMiraAsync();
        await room.Use<StateAddress>().RunAsync(new("http://192.0.2.20:5080"), Cancel);
        using var desk = room.Browser();
        var shown = await (await desk.SendFormAsync("/people/phones", "pair", ("Pair.Person", "Mira"))).TextAsync();
        var code = System.Text.RegularExpressions.Regex.Match(shown, "[2-9A-Z]{4}-[2-9A-Z]{4}").Value;
        Assert.Contains("http://192.0.2.20:5080/people/pair", shown, StringComparison.Ordinal);
        Assert.Contains("class=\"qr\"", shown, StringComparison.Ordinal);

        using var phone = room.Browser(fromElsewhere: true);
        Assert.Contains($"value=\"{code}\"", await phone.GetStringAsync($"/people/pair?code={code}", Cancel), StringComparison.Ordinal);
        var paired = await phone.SendFormAsync("/people/pair", "pair", ("This.Code", code), ("This.Device", "Mira’s phone"));
        Assert.Equal(HttpStatusCode.Redirect, paired.StatusCode);
        Assert.Contains("At this page: Mira", await phone.GetStringAsync("/people", Cancel), StringComparison.Ordinal);
        using var form = new FormUrlEncodedContent([new("_handler", "person"), new("New.Name", "Eve")]);
        var refused = await phone.PostAsync("/people", form, Cancel);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        Assert.Contains("paired phone", await refused.TextAsync(), StringComparison.Ordinal);

        using var second = room.Browser(fromElsewhere: true);
        var again = await (await second.SendFormAsync("/people/pair", "pair", ("This.Code", code), ("This.Device", "another"))).TextAsync();
        Assert.Contains("wrong, used or older", again, StringComparison.Ordinal);

        var device = Assert.Single(await room.Use<ShowDevices>().RunAsync(Cancel));
        Assert.Equal("Mira’s phone", device.Name);
        await desk.SendFormAsync("/people/phones", "out", ("Out.Device", device.Id.ToString()));
        Assert.Equal(HttpStatusCode.Redirect, (await phone.GetAsync("/", Cancel)).StatusCode);
    }

    [Fact]
    public async Task From_one_place_there_are_so_many_guesses_a_minute()
    {
        await using var room = await WithMiraAsync();
        using var http = room.Browser(fromElsewhere: true);
        using var form = new FormUrlEncodedContent([new("This.Code", "AAAA-AAAA")]);
        var answers = new List<HttpStatusCode>();
        for (var i = 0; i < 25; i++)
        {
            answers.Add((await http.PostAsync("/people/pair", form, Cancel)).StatusCode);
        }

        Assert.Equal(5, answers.Count(s => s is HttpStatusCode.TooManyRequests));
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync("/people/pair", Cancel)).StatusCode); // reading is no guess
    }

    private static async Task<ServedRoom> WithMiraAsync()
    {
        var room = await ServedRoom.OpenAsync();
        await room.Use<AddPerson>().RunAsync(new("Mira"), Cancel);
        await room.Use<SetSecret>().RunAsync(new(new("Mira"), Pin), Cancel);
        return room;
    }
}

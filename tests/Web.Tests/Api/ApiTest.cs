using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Orders;
using Goodsheet.App.People;
using Goodsheet.Imaging;
using Goodsheet.Web.Api;

namespace Goodsheet.Web.Tests.Api;

public class ApiTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_client_made_from_the_document_lists_papers_puts_an_order_with_a_picture_and_sees_how_it_is()
    {
        await using var served = await OpenAsync();
        var client = await GeneratedClient.OfAsync(served.Address, await KeyAsync(served, "An invented shop"));

        var papers = (IEnumerable<object>)await client.CallAsync("ListPapers");
        Assert.Equal("test-cotton", GeneratedClient.Of(Assert.Single(papers), "Paper"));
        Assert.NotEmpty((IEnumerable<object>)await client.CallAsync("ListFormats"));

        using var content = new MemoryStream(Picture());
        var kept = await client.CallAsync("PutPicture", content);
        Assert.Equal(300, GeneratedClient.Of(kept, "PixelsWide"));
        var print = client.New("NewPrint", ("Picture", GeneratedClient.Of(kept, "Picture")), ("FileName", "low water.tif"), ("WidthMm", 300d), ("HeightMm", 200d), ("Paper", "test-cotton"), ("Copies", 2));
        var order = client.New("NewOrder", ("Client", "An invented gallery"), ("Reference", "G-17"), ("Promised", new DateTimeOffset(2026, 12, 1, 12, 0, 0, TimeSpan.Zero)), ("Approval", "proof"), ("Prints", new[] { print }));
        var put = await client.CallAsync("PutOrder", order, "gallery-order-17");
        Assert.Equal("proof not approved yet", GeneratedClient.Of(put, "State"));
        var number = (int)GeneratedClient.Of(put, "Order")!;

        // The answer was lost: the same again is the same order.
        Assert.Equal(number, GeneratedClient.Of(await client.CallAsync("PutOrder", order, "gallery-order-17"), "Order"));
        Assert.True((await served.Use<HoldOrder>().RunAsync(new(new("Mira"), number, HoldOrder.To.Hold, "who pays?"), Cancel)).Granted);
        Assert.Equal("on hold: who pays?", GeneratedClient.Of(await client.CallAsync("ShowOrder", number), "State"));
        await using var db = served.Store.Open();
        Assert.Equal("An invented shop", (await db.Orders.SingleAsync(Cancel)).TakenBy.Value);
        Assert.Equal(1, await db.Work.CountAsync(Cancel));
    }

    [Fact]
    public async Task One_key_for_two_orders_is_refused_and_another_program_sees_nothing_of_it()
    {
        await using var served = await OpenAsync();
        using var http = Program(served, await KeyAsync(served, "An invented shop"));
        var picture = await PictureAsync(http);
        Assert.Equal(HttpStatusCode.Created, (await PutAsync(http, Order(picture), "order-0001")).StatusCode);
        Assert.Equal(HttpStatusCode.Conflict, (await PutAsync(http, Order(picture, copies: 3), "order-0001")).StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await PutAsync(http, Order(picture), "short")).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await http.PostAsJsonAsync("/api/orders", Order(picture), Cancel)).StatusCode); // no Idempotency-Key

        using var other = Program(served, await KeyAsync(served, "Another shop"));
        Assert.Equal(HttpStatusCode.NotFound, (await other.GetAsync("/api/orders/2001", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.Created, (await PutAsync(other, Order(picture), "order-0001")).StatusCode); // its own keys are its own
    }

    [Fact]
    public async Task Without_a_key_that_is_let_in_nothing_is_told_and_nothing_taken()
    {
        await using var served = await OpenAsync();
        var key = await KeyAsync(served, "An invented shop");
        foreach (var wrong in (string[])["", "goodsheet_wrong", key + "x", key.ToUpperInvariant()])
        {
            using var http = Program(served, wrong);
            foreach (var path in (string[])["/api/papers", "/api/formats", "/api/orders/2001", "/API/papers"])
            {
                Assert.Equal(HttpStatusCode.Unauthorized, (await http.GetAsync(path, Cancel)).StatusCode);
            }

            Assert.Equal(HttpStatusCode.Unauthorized, (await http.PostAsync("/api/pictures", new ByteArrayContent(Picture()), Cancel)).StatusCode);
        }

        using var known = Program(served, key, fromElsewhere: true);
        Assert.Equal(HttpStatusCode.OK, (await known.GetAsync("/api/papers", Cancel)).StatusCode);
        await using var db = served.Store.Open();
        var kept = await db.ApiKeys.SingleAsync(Cancel);
        Assert.DoesNotContain(key, kept.KeyHash, StringComparison.Ordinal);
        Assert.DoesNotContain(key[IssueKey.Prefix.Length..], (await served.Use<IssueKey>().RunAsync(new(new("Mira"), "Third"), Cancel)).Value!.ToString(), StringComparison.Ordinal);
        Assert.True((await served.Use<RevokeKey>().RunAsync(new(kept.Id), Cancel)).Granted);
        Assert.Equal(HttpStatusCode.Unauthorized, (await known.GetAsync("/api/papers", Cancel)).StatusCode);
        Assert.IsType<IssueKey.NameIsTaken>((await served.Use<IssueKey>().RunAsync(new(new("Mira"), "An invented shop"), Cancel)).Refusal);
    }

    [Fact]
    public async Task What_cannot_be_read_or_printed_is_refused_in_words_and_as_JSON()
    {
        await using var served = await OpenAsync();
        using var http = Program(served, await KeyAsync(served, "An invented shop"));
        var picture = await PictureAsync(http);
        foreach (var bad in (string[])
        [
            "{", "null", "{}", """{"client":"A","promised":"2026-12-01T12:00:00Z"}""",
            """{"client":"A","promised":"2026-12-01T12:00:00Z","prints":[null]}""",
            """{"client":"A","promised":"2026-12-01T12:00:00Z","prints":[{"copies":1}]}""",
            $$"""{"client":"A","promised":"2026-12-01T12:00:00Z","prints":[{"picture":"{{picture}}","fileName":"a.tif","widthMm":1e300,"heightMm":200,"paper":"test-cotton","copies":1}]}""",
            $$"""{"client":"A","promised":"2026-12-01T12:00:00Z","prints":[{"picture":"../../room.db","fileName":"a.tif","widthMm":300,"heightMm":200,"paper":"test-cotton","copies":1}]}""",
            $$"""{"client":"A","promised":"2026-12-01T12:00:00Z","prints":[{"picture":"{{picture}}","fileName":"a.tif","widthMm":300,"heightMm":200,"paper":"nothing","copies":1}]}""",
        ])
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/api/orders") { Content = new StringContent(bad, new MediaTypeHeaderValue("application/json")) };
            request.Headers.Add("Idempotency-Key", "bad-order-1");
            using var answer = await http.SendAsync(request, Cancel);
            Assert.True(answer.StatusCode is HttpStatusCode.BadRequest or HttpStatusCode.UnprocessableEntity, $"{bad}: {answer.StatusCode}");
            Assert.Equal("application/json", answer.Content.Headers.ContentType?.MediaType);
            Assert.NotEmpty((await answer.Content.ReadFromJsonAsync<Problem>(JsonSerializerOptions.Web, Cancel))!.Why);
        }

        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await http.PostAsync("/api/pictures", new ByteArrayContent([1, 2, 3]), Cancel)).StatusCode);
        using var large = new HttpRequestMessage(HttpMethod.Post, "/api/orders") { Content = new ByteArrayContent(new byte[BodySize.LargestForm + 1]) };
        large.Headers.ExpectContinue = true; // so that the room's no comes before its door closes
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await http.SendAsync(large, Cancel)).StatusCode);
        await using var db = served.Store.Open();
        Assert.Equal(0, await db.Orders.CountAsync(Cancel));
    }

    [Fact]
    public async Task A_program_that_runs_wild_is_told_to_wait_and_the_pages_are_not_held_up()
    {
        await using var served = await OpenAsync();
        using var http = Program(served, await KeyAsync(served, "An invented shop"));
        for (var i = 0; i < GoodsheetWeb.ApiCallsAMinute; i++)
        {
            using var answer = await http.GetAsync("/api/formats", Cancel);
            if (answer.StatusCode is HttpStatusCode.TooManyRequests)
            {
                break; // a minute may have turned between
            }
        }

        using var held = await http.GetAsync("/api/formats", Cancel);
        Assert.Equal(HttpStatusCode.TooManyRequests, held.StatusCode);
        Assert.NotNull(held.Headers.RetryAfter);
        using var browser = served.Browser();
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/orders", Cancel)).StatusCode);
    }

    internal static async Task<ServedRoom> OpenAsync()
    {
        var served = await ServedRoom.OpenAsync();
        await served.Room.FurnishedAsync();
        return served;
    }

    internal static async Task<string> KeyAsync(ServedRoom served, string name) =>
        (await served.Use<IssueKey>().RunAsync(new(new("Mira"), name), Cancel)).Value!.Key;

    internal static HttpClient Program(ServedRoom served, string key, bool fromElsewhere = false)
    {
        var http = new HttpClient(new SocketsHttpHandler { Expect100ContinueTimeout = ServedRoom.Patience }) { BaseAddress = served.Address };
        if (key.Length > 0)
        {
            http.DefaultRequestHeaders.Authorization = new("Bearer", key);
        }

        if (fromElsewhere)
        {
            http.DefaultRequestHeaders.Add("X-Forwarded-For", "192.0.2.7");
        }

        return http;
    }

    internal static async Task<string> PictureAsync(HttpClient http)
    {
        using var answer = await http.PostAsync("/api/pictures", new ByteArrayContent(Picture()), Cancel);
        return (await answer.Content.ReadFromJsonAsync<KeptPicture>(Cancel))!.Picture;
    }

    private static object Order(string picture, int copies = 1) => new
    {
        client = "An invented gallery",
        promised = new DateTimeOffset(2026, 12, 1, 12, 0, 0, TimeSpan.Zero),
        prints = new[] { new { picture, fileName = "a.tif", widthMm = 300, heightMm = 200, paper = "test-cotton", copies } },
    };

    private static async Task<HttpResponseMessage> PutAsync(HttpClient http, object order, string key)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/orders") { Content = JsonContent.Create(order) };
        request.Headers.Add("Idempotency-Key", key);
        return await http.SendAsync(request, Cancel);
    }

    private static byte[] Picture()
    {
        var path = Path.Combine(Path.GetTempPath(), $"goodsheet-api-{Guid.NewGuid():N}.tif");
        DrawnTiff.Write(path, 300, 200, 3, 300, (_, row) => Array.Fill(row, (ushort)30_000));
        try
        {
            return File.ReadAllBytes(path);
        }
        finally
        {
            File.Delete(path);
        }
    }
}

using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Goodsheet.Web.Api;

namespace Goodsheet.Web.Tests.Api;

/// <summary>Orders of programs damaged at random: taken whole, or refused in words and as JSON; never a fault of the room.</summary>
public sealed class MutatedOrderTest
{
    private static readonly int Rounds = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 100_000 : 2_000;

    // To take an order takes its time: so many name a picture that is here, all others are read as far and then refused.
    private const int WithPictureEvery = 25;

    private static readonly string[] Words =
        ["null", "true", "{}", "[]", "[null]", "\"", ":", ",", "}", "]", "1e309", "-1", "1e-320", "99999999999999999999", "\\u0000", "\\ud800", "\"2026-02-30\"", "\"\"", "//", "\uFEFF", "\"wrap\"", "[[[[[[[["];

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Is_taken_whole_or_refused_in_words()
    {
        await using var served = await ApiTest.OpenAsync();
        var key = await ApiTest.KeyAsync(served, "An invented shop");
        using var first = ApiTest.Program(served, key);
        var picture = await ApiTest.PictureAsync(first);
        var whole = $$"""
            {"client":"An invented gallery","reference":"G-17","promised":"2026-12-01T12:00:00Z","approval":"proof","prints":[
            {"picture":"{{picture}}","fileName":"low water.tif","title":"Low water","widthMm":300,"heightMm":200.5,"borderMm":10,"edge":"wrap","aroundMm":40,"paper":"test-cotton","copies":2},
            {"picture":"{{picture}}","fileName":"a.tif","widthMm":150,"heightMm":100,"paper":"test-cotton","copies":1}]}
            """;
        var random = new Random(76); // seeded: a failure names its round, which replays
        var (taken, refused) = (0, 0);
        HttpClient? http = null;
        for (var round = 0; round < Rounds; round++)
        {
            if (round % (GoodsheetWeb.ApiCallsAMinute / 2) == 0)
            {
                http?.Dispose();
                http = From(served.Address, key, round / (GoodsheetWeb.ApiCallsAMinute / 2));
            }

            var text = Changed(round % WithPictureEvery == 0 ? whole : whole.Replace(picture, new string('0', picture.Length), StringComparison.Ordinal), random);
            using var request = new HttpRequestMessage(HttpMethod.Post, "/api/orders") { Content = new StringContent(text, new UTF8Encoding(false, false), new MediaTypeHeaderValue("application/json")) };
            request.Headers.Add("Idempotency-Key", $"mutant-{round}");
            using var answer = await http!.SendAsync(request, Cancel);
            Assert.True(answer.StatusCode is HttpStatusCode.Created or HttpStatusCode.BadRequest or HttpStatusCode.UnprocessableEntity, $"round {round}: {answer.StatusCode} to {text}");
            if (answer.StatusCode is HttpStatusCode.Created)
            {
                Assert.True((await answer.Content.ReadFromJsonAsync<OrderSays>(JsonSerializerOptions.Web, Cancel))!.Prints.Count > 0, $"round {round}");
                taken++;
            }
            else
            {
                Assert.False(string.IsNullOrWhiteSpace((await answer.Content.ReadFromJsonAsync<Problem>(JsonSerializerOptions.Web, Cancel))!.Why), $"round {round}");
                refused++;
            }
        }

        http?.Dispose();
        Assert.True(taken > 0 && refused > 0, $"{taken} taken, {refused} refused: the changes test nothing");
        await using var db = served.Store.Open();
        Assert.Equal(taken, await db.Orders.CountAsync(Cancel));
    }

    // Each from another place of this machine's own network: so many calls of one place would have to wait.
    private static HttpClient From(Uri address, string key, int place)
    {
        var http = new HttpClient(new SocketsHttpHandler
        {
            ConnectCallback = async (context, cancel) =>
            {
                var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
                socket.Bind(new IPEndPoint(new IPAddress([127, 77, (byte)(place / 250), (byte)(1 + (place % 250))]), 0));
                await socket.ConnectAsync(IPAddress.Loopback, context.DnsEndPoint.Port, cancel);
                return new NetworkStream(socket, ownsSocket: true);
            },
        })
        { BaseAddress = address };
        http.DefaultRequestHeaders.Authorization = new("Bearer", key);
        return http;
    }

    private static string Changed(string text, Random random)
    {
        for (var change = random.Next(1, 4); change > 0; change--)
        {
            var at = random.Next(text.Length + 1);
            var length = Math.Min(random.Next(1, 20), text.Length - at);
            text = random.Next(5) switch
            {
                0 => text.Remove(at, length),
                1 => text.Insert(at, Words[random.Next(Words.Length)]),
                2 => text.Insert(at, text.Substring(at, length)),
                3 => text.Insert(at, $"{(char)random.Next(1, 0x300)}"),
                _ => Instead(text, random), // a whole value for another: JSON that is well formed
            };
        }

        return text;
    }

    private static string Instead(string text, Random random)
    {
        var colon = text.IndexOf(':', random.Next(Math.Max(1, text.Length)));
        var end = colon < 0 ? -1 : text.IndexOfAny([',', '}'], colon);
        return end < 0 ? text : $"{text[..(colon + 1)]}{Words[random.Next(Words.Length)]}{text[end..]}";
    }
}

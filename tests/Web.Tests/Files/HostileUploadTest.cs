using System.Net;
using System.Net.Sockets;
using System.Text;
using Goodsheet.App.Tests;

namespace Goodsheet.Web.Tests.Files;

/// <summary>What is sent by somebody who means no good, or by a broken program: a no in words, never a fault.</summary>
public sealed class HostileUploadTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static TheoryData<string, byte[]> Contents => new()
    {
        { "empty.txt", [] },
        { "archive.zip", [0x50, 0x4B, 3, 4, .. new byte[200]] },
        { "noise.txt", Noise(100_000) },
        { "many.txt", Encoding.ASCII.GetBytes("CGATS.17\nNUMBER_OF_FIELDS 7\nBEGIN_DATA_FORMAT\nSAMPLE_ID RGB_R RGB_G RGB_B LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS 999999999999\nBEGIN_DATA\nEND_DATA\n") },
        { "short.txt", Encoding.ASCII.GetBytes("CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID RGB_R\nEND_DATA_FORMAT\nBEGIN_DATA\n1\n") },
        { "infinite.txt", Encoding.ASCII.GetBytes("CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID RGB_R RGB_G RGB_B LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS 1\nBEGIN_DATA\n1 0 0 0 NaN 1e999 0\nEND_DATA\n") },
        { "one-line.csv", Encoding.ASCII.GetBytes(new string(',', 2_000_000)) },
        { "profile.icc", [.. new byte[36], .. "acsp"u8, .. Noise(500)] },
        { "pixels.tif", [0x49, 0x49, 42, 0, 8, 0, 0, 0, 255, 255, .. Noise(300)] },
        { "pixels.png", [0x89, .. "PNG\r\n\x1a\n\0\0\0\rIHDR"u8, 0x7F, 0xFF, 0xFF, 0xFF, 0x7F, 0xFF, 0xFF, 0xFF, 16, 6, 0, 0, 0, 1, 2, 3, 4] },
    };

    [Theory]
    [MemberData(nameof(Contents))]
    public async Task A_reading_that_is_none_is_refused_in_words(string name, byte[] content)
    {
        await using var room = await ServedRoom.OpenAsync();
        await room.Room.FurnishedAsync();
        using var http = room.Browser();
        var page = await BringInAsync(http, "/readings/new", name, content);
        var answer = await http.SendFormAsync(page, "chart", ("Chart.Paper", $"{FreshRoom.Cotton}"), ("Chart.Printer", $"{FreshRoom.Heron}"), ("Chart.Media", "Matte"));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("role=\"alert\"", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Contents))]
    public async Task A_picture_that_is_none_is_refused_in_words(string name, byte[] content)
    {
        await using var room = await ServedRoom.OpenAsync();
        await room.Room.FurnishedAsync();
        using var http = room.Browser();
        var page = await BringInAsync(http, "/orders/new", name, content);
        var answer = await http.SendFormAsync(page, "order", ("Wish.Command", $"{Guid.NewGuid()}"), ("Wish.Client", "Invented"), ("Wish.Paper", $"{FreshRoom.Cotton}"),
            ("Wish.Width", "200"), ("Wish.Height", "100"), ("Wish.Border", "10"), ("Wish.Copies", "1"), ("Wish.DistanceCm", "50"), ("Wish.Promised", "2099-05-06T12:00"));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("role=\"alert\"", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("..%2F..%2Froom.db")]
    [InlineData("%2Fetc%2Fpasswd")]
    [InlineData("0000000000000000000000000000000000000000000000000000000000000000")]
    public async Task The_name_of_a_kept_file_that_is_none_leads_nowhere(string hash)
    {
        await using var room = await ServedRoom.OpenAsync();
        await room.Room.FurnishedAsync();
        using var http = room.Browser();
        var answer = await http.SendFormAsync($"/readings/new?file={hash}&name=a.txt", "chart", ("Chart.Paper", $"{FreshRoom.Cotton}"), ("Chart.Printer", $"{FreshRoom.Heron}"), ("Chart.Media", "Matte"));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("role=\"alert\"", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("text/plain", "no form at all")]
    [InlineData("multipart/form-data", "no boundary")]
    [InlineData("multipart/form-data; boundary=b", "--b\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.txt\"\r\n\r\nit ends her")]
    [InlineData("multipart/form-data; boundary=b", "it never begins")]
    public async Task A_form_that_is_none_is_refused_and_nothing_is_kept(string type, string body)
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        using var content = new StringContent(body);
        content.Headers.ContentType = System.Net.Http.Headers.MediaTypeHeaderValue.Parse(type);
        var answer = await http.PostAsync("/files/bring-in?then=/orders/new", content, Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.NotEmpty(await answer.TextAsync());
        Assert.Empty(Kept(room));
    }

    [Fact]
    public async Task A_part_with_headers_without_end_is_refused()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var http = room.Browser();
        using var content = new StringContent($"--b\r\nContent-Disposition: form-data; name=\"{new string('x', 100_000)}\"\r\n\r\na\r\n--b--\r\n");
        content.Headers.ContentType = System.Net.Http.Headers.MediaTypeHeaderValue.Parse("multipart/form-data; boundary=b");
        Assert.Equal(HttpStatusCode.BadRequest, (await http.PostAsync("/files/bring-in?then=/orders/new", content, Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_file_that_says_it_is_larger_than_the_room_takes_is_refused_before_it_comes()
    {
        await using var room = await ServedRoom.OpenAsync();
        using var client = new TcpClient();
        await client.ConnectAsync(room.Address.Host, room.Address.Port, Cancel);
        await using var stream = client.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(
            "POST /files/bring-in?then=/orders/new HTTP/1.1\r\nHost: 127.0.0.1\r\nAccept: text/html\r\nContent-Type: multipart/form-data; boundary=b\r\nContent-Length: 9000000000\r\n\r\n"), Cancel);
        using var reader = new StreamReader(stream);
        Assert.StartsWith("HTTP/1.1 413", await reader.ReadLineAsync(Cancel), StringComparison.Ordinal);
        Assert.Empty(Kept(room));
    }

    private static async Task<string> BringInAsync(HttpClient http, string then, string name, byte[] content)
    {
        using var form = new MultipartFormDataContent { { new ByteArrayContent(content), "file", name } };
        var answer = await http.PostAsync($"/files/bring-in?then={then}", form, Cancel);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return answer.Headers.Location!.ToString();
    }

    private static IEnumerable<string> Kept(ServedRoom room) => Path.Combine(room.Room.Folder, "files") is var files && Directory.Exists(files)
        ? Directory.EnumerateFiles(files, "*", SearchOption.AllDirectories) : [];

    private static byte[] Noise(int length)
    {
        var noise = new byte[length];
        new Random(5).NextBytes(noise);
        return noise;
    }
}

using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Tests;
using Goodsheet.Imaging;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.Web.Tests.Orders;

/// <summary>Words and photographs go in one form, as a browser without script sends it.</summary>
public sealed partial class ComplaintFormTest
{
    private const string Page = "/orders/complaint?order=2211";
    private const int MoreThanAFormWithoutFiles = 5 << 20;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Words_and_photographs_are_written_down_together()
    {
        await using var room = await WithOrderAsync();
        using var http = room.Browser();
        var answer = await SendAsync(http, "a crease across the sky", [Photograph(room, 1), Photograph(room, 2)]);
        Assert.True(answer.StatusCode is HttpStatusCode.Redirect or HttpStatusCode.Found, await answer.TextAsync());
        var complaint = await ComplaintAsync(room);
        Assert.Equal(("a crease across the sky", 2), (complaint.What, complaint.Photographs.Count));
        Assert.Equal("image/jpeg", (await http.GetAsync($"/orders/complaints/{complaint.Number}/photograph-2.jpg", Cancel)).Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task Refused_words_keep_the_photographs_that_came_with_them()
    {
        await using var room = await WithOrderAsync();
        using var http = room.Browser();
        var refused = await (await SendAsync(http, "", [Photograph(room, 1)])).TextAsync();
        Assert.Contains("What is wrong with it", refused, StringComparison.Ordinal);
        Assert.Contains("1 are here already", refused, StringComparison.Ordinal);
        var kept = Kept().Match(refused).Groups[1].Value;
        Assert.Equal(64, kept.Length);
        await SendAsync(http, "a crease", [], kept);
        Assert.Equal([kept], (await ComplaintAsync(room)).Photographs);
    }

    [Fact]
    public async Task A_form_without_a_photograph_is_enough()
    {
        await using var room = await WithOrderAsync();
        using var http = room.Browser();
        await SendAsync(http, "a crease", []);
        Assert.Empty((await ComplaintAsync(room)).Photographs);
    }

    [Fact]
    public async Task A_photograph_larger_than_other_forms_may_be_is_taken()
    {
        await using var room = await WithOrderAsync();
        using var http = room.Browser();
        var answer = await SendAsync(http, "a crease", [new byte[MoreThanAFormWithoutFiles]]);
        Assert.Contains("One of these is not", await answer.TextAsync(), StringComparison.Ordinal); // it came in whole, and is no picture
    }

    private static async Task<Complaint> ComplaintAsync(ServedRoom room)
    {
        await using var db = room.Store.Open();
        return await db.Complaints.SingleAsync(Cancel);
    }

    private static async Task<HttpResponseMessage> SendAsync(HttpClient http, string what, IReadOnlyList<byte[]> photographs, string kept = "")
    {
        var token = ServedRoom.Token().Match(await http.GetStringAsync(Page, Cancel));
        var form = new MultipartFormDataContent
        {
            { new StringContent("wrong"), "_handler" },
            { new StringContent(WebUtility.HtmlDecode(token.Groups[1].Value)), "__RequestVerificationToken" },
            { new StringContent(Guid.NewGuid().ToString()), "Wrong.Command" },
            { new StringContent(kept), "Wrong.Kept" },
            { new StringContent("1"), "Wrong.Line" },
            { new StringContent(what), "Wrong.What" },
            { new StringContent("Supplier"), "Wrong.Pays" },
            { new StringContent("0"), "Wrong.MakeAgain" },
            { new StringContent("2026-12-01T12:00"), "Wrong.Promised" },
        };
        foreach (var (bytes, i) in photographs.Select((p, i) => (p, i)))
        {
            form.Add(new ByteArrayContent(bytes), "Wrong.Photographs", $"crease-{i}.tif");
        }

        if (photographs.Count == 0)
        {
            // As a browser says that nothing was chosen.
            var nothing = new ByteArrayContent([]);
            nothing.Headers.ContentDisposition = new("form-data") { Name = "\"Wrong.Photographs\"", FileName = "\"\"" };
            form.Add(nothing);
        }

        return await http.PostAsync(Page, form, Cancel);
    }

    private static byte[] Photograph(ServedRoom room, int seed)
    {
        var path = Path.Combine(room.Room.Folder, $"crease-{seed}.tif");
        DrawnTiff.Write(path, 60, 40, 3, 300, (y, row) => Array.Fill(row, (ushort)(y * 500 * seed)));
        return File.ReadAllBytes(path);
    }

    private static async Task<ServedRoom> WithOrderAsync()
    {
        var room = await ServedRoom.OpenAsync();
        await room.Room.FurnishedAsync();
        await using var db = room.Store.Open();
        var now = TimeProvider.System.GetUtcNow();
        db.Clients.Add(new() { Number = 1, Name = "An invented gallery" });
        db.Orders.Add(new() { Number = 2211, Client = 1, TakenAt = now, TakenBy = new("Mira"), Promised = now });
        db.PrintLines.Add(new()
        {
            Order = 2211,
            Line = 1,
            Title = "Low Water",
            ImageHash = "01",
            ImageName = "low water.tif",
            PixelsWide = 60,
            PixelsHigh = 40,
            Width = Length.FromMillimetres(300),
            Height = Length.FromMillimetres(200),
            Paper = FreshRoom.Cotton,
            Copies = 1,
        });
        await db.SaveChangesAsync(Cancel);
        return room;
    }

    [GeneratedRegex("""name="Wrong.Kept" value="([0-9a-f]+)""")]
    private static partial Regex Kept();
}

using System.Collections.Concurrent;
using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App;
using Goodsheet.App.Storage;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Cli.Tests.Shelf;

/// <summary>The program is killed in the middle of goods-in, again and again: what was acknowledged is there, and once.</summary>
public sealed partial class KilledGoodsInTest
{
    private const int Hands = 3;
    private const int Sheets = 10;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task No_box_that_was_acknowledged_is_missing_and_none_is_there_twice()
    {
        var kills = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 200 : 8;
        var folder = Directory.CreateTempSubdirectory("goodsheet-killed-").FullName;
        var store = RoomStore.InFile(Path.Combine(folder, "room.db"));
        await store.MigrateAsync(Cancel);
        await using (var db = store.Open())
        {
            db.Papers.Add(new() { Code = new("invented"), Name = "Invented", Class = PaperClass.Satin, Base = PaperBase.ResinCoated, Coat = Coat.Shiny, Grammage = 260, Feed = Feed.Stack, LineUp = LineUp.In });
            await db.SaveChangesAsync(Cancel);
        }

        var (sent, acknowledged, random) = (new ConcurrentDictionary<Guid, bool>(), new ConcurrentDictionary<Guid, bool>(), new Random(20261125));
        var cookies = new CookieContainer();
        RunningRoom? last = null;
        string? token = null;
        for (var kill = 0; kill < kills; kill++)
        {
            var room = last = await RunningRoom.OpenAsync(folder);
            using var http = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = cookies }) { BaseAddress = room.Address };
            token ??= WebUtility.HtmlDecode(Token().Match(await http.GetStringAsync("shelf/put-away", Cancel)).Groups[1].Value); // it outlives the kill
            var waiting = new ConcurrentQueue<Guid>(sent.Keys.Except(acknowledged.Keys)); // cut off before: sent once more, alike
            var first = new TaskCompletionSource();
            var hands = Enumerable.Range(0, Hands).Select(_ => Task.Run(async () =>
            {
                while (true)
                {
                    var command = waiting.TryDequeue(out var again) ? again : Guid.CreateVersion7();
                    sent[command] = true;
                    using var form = new FormUrlEncodedContent(
                    [
                        new("_handler", "box"), new("__RequestVerificationToken", token), new("Box.Command", command.ToString()),
                        new("Box.Paper", "invented"), new("Box.Format", "A4"), new("Box.Quantity", $"{Sheets}"),
                    ]);
                    var answer = await http.PostAsync("shelf/put-away", form, Cancel);
                    Assert.True(answer.StatusCode is HttpStatusCode.Redirect, $"{answer.StatusCode}: {await answer.Content.ReadAsStringAsync(Cancel)}");
                    acknowledged[command] = true;
                    first.TrySetResult();
                }
            }, Cancel)).ToArray();
            await Task.WhenAny(first.Task, Task.WhenAll(hands));
            await Task.Delay(random.Next(0, 120), Cancel);
            await room.KillAsync();
            foreach (var hand in hands)
            {
                var end = await Record.ExceptionAsync(() => hand);
                Assert.True(end is HttpRequestException, $"kill {kill}: {room.Said} {end}"); // cut off, and nothing else
            }
        }

        Assert.InRange(acknowledged.Count, kills, int.MaxValue);
        await using (var db = store.Open())
        {
            var moves = await db.Moves.AsNoTracking().ToListAsync(Cancel);
            Assert.Empty(acknowledged.Keys.Except(moves.Select(m => m.Command.Value)));
            Assert.Empty(moves.Select(m => m.Command.Value).Except(sent.Keys));
            Assert.Equal(moves.Count, moves.Select(m => m.Command).Distinct().Count());
            Assert.Equal(moves.Count, await db.Lots.CountAsync(Cancel));

            // Every line has both its ends, so all accounts together are nothing; what the suppliers gave is on the shelf.
            Assert.All(moves, m => Assert.Equal((Sheets, Account.Shelf), ((int)m.Quantity, m.To)));
            Assert.Equal(0, moves.Sum(m => m.Quantity) - moves.Where(m => m.To == Account.Shelf).Sum(m => m.Quantity));
            Assert.All(moves.GroupBy(m => m.Lot), lot => Assert.Equal([1], lot.Select(m => (int)m.Number)));
        }

        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        await last!.DisposeAsync();
    }

    [GeneratedRegex("""name="__RequestVerificationToken" value="([^"]+)""")]
    private static partial Regex Token();
}

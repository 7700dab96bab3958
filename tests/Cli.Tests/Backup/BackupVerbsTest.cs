using System.Text.Json;

namespace Goodsheet.Cli.Tests.Backup;

public sealed class BackupVerbsTest : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-backup-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task A_room_that_is_open_is_backed_up_restored_and_opened_again()
    {
        var archive = Path.Combine(folder.FullName, "room.goodsheet");
        var again = Path.Combine(folder.FullName, "again");
        await using (var room = await RunningRoom.OpenAsync())
        {
            await OneVerb.RunAsync(["person", "Mira", "--room", room.Folder], "842196");
            var backup = await OneVerb.RunAsync(["backup", "--room", room.Folder, "--out", archive, "--json"]);
            Assert.Equal(0, backup.Exit);
            Assert.Equal(archive, JsonDocument.Parse(backup.Output).RootElement.GetProperty("file").GetString());
            Assert.Equal(2, (await OneVerb.RunAsync(["backup", "--room", room.Folder, "--out", archive])).Exit);
            using var http = new HttpClient { BaseAddress = room.Address };
            Assert.Contains("Last backup", await http.GetStringAsync("people", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }

        Assert.Equal(0, (await OneVerb.RunAsync(["restore", archive, "--room", again])).Exit);
        Assert.Equal(2, (await OneVerb.RunAsync(["restore", archive, "--room", again])).Exit);
        Assert.Equal(2, (await OneVerb.RunAsync(["backup", "--room", Path.Combine(folder.FullName, "none"), "--out", archive + "2"])).Exit);
        Assert.False(Directory.Exists(Path.Combine(folder.FullName, "none")));
        await using var second = await RunningRoom.OpenAsync(again);
        using var client = new HttpClient { BaseAddress = second.Address };
        Assert.Contains("Mira", await client.GetStringAsync("people", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}

using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using Goodsheet.App.Files;
using Goodsheet.App.Settings;
using Goodsheet.App.Storage;
using Goodsheet.App.Storage.Sqlite;
using Goodsheet.Room;

namespace Goodsheet.App.Demo;

/// <summary>The demonstration room: an invented room with half a year behind it and a day's work before it.</summary>
/// <remarks>
/// Made beside its folder and moved there when it is whole, so that a kill on the way leaves nothing that could be
/// taken for a room. The same seed and the same instant give the same room.
/// </remarks>
public static class DemoRoom
{
    public const int Seed = 20261125;

    /// <summary>How far back its story goes.</summary>
    public const int Days = DemoHistory.Days;

    private const string Records = "room.db";

    /// <summary>Makes sure that a folder holds a demonstration room.</summary>
    /// <param name="folder">Where: not there yet, empty, or a demonstration already.</param>
    /// <param name="now">The instant its Today is about.</param>
    /// <param name="zone">Where its clock hangs.</param>
    /// <param name="tell">Told what is being done, in a few words.</param>
    /// <param name="cancel">Stops it, and leaves nothing behind.</param>
    public static async Task<Outcome<Ready>> MakeReadyAsync(
        string folder, DateTimeOffset now, TimeZoneInfo zone, IProgress<string> tell, CancellationToken cancel)
    {
        folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any())
        {
            return await IsDemoAsync(Path.Combine(folder, Records), cancel) ? new Ready(IsNew: false) : new IsNotADemo(folder);
        }

        var making = folder + ".making";
        Directory.CreateDirectory(Path.GetDirectoryName(folder)!);
        using var only = new FileStream(making + ".lock", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        try
        {
            Clear(making);
            await MakeAsync(making, now, zone, tell, cancel);
            if (Directory.Exists(folder))
            {
                Directory.Delete(folder); // empty, or it would have been refused
            }

            Directory.Move(making, folder);
        }
        finally
        {
            Clear(making);
        }

        return new Ready(IsNew: true);
    }

    private static async Task<bool> IsDemoAsync(string records, CancellationToken cancel)
    {
        if (!File.Exists(records))
        {
            return false;
        }

        try
        {
            return (await new ShowSettings(RoomStore.InFile(records)).RunAsync(cancel)).IsDemo;
        }
        catch (SqliteException)
        {
            return false; // some other file of that name
        }
    }

    private static async Task MakeAsync(string folder, DateTimeOffset now, TimeZoneInfo zone, IProgress<string> tell, CancellationToken cancel)
    {
        Directory.CreateDirectory(folder);
        var file = Path.Combine(folder, Records);
        var options = new DbContextOptionsBuilder<SqliteRoomDb>(SqliteRoomDb.Options(file)).AddInterceptors(new WithoutWaiting()).Options;
        var room = new RoomStore(() => new SqliteRoomDb(options), RoomStore.Kind.Sqlite, SqliteRoomDb.ConnectionString(file));
        await room.MigrateAsync(cancel);

        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).DateTime);
        var clock = new SimulatedClock(zone, now.AddDays(-DemoHistory.Days - 30));
        var files = new FileShelf(Path.Combine(folder, "files"));
        var services = new ServiceCollection().AddGoodsheet(room, files).AddSingleton<TimeProvider>(clock);
        await using var provider = services.BuildServiceProvider();
        var hand = new DemoHand(provider, room, files, clock, new Random(Seed));

        tell.Report("Inventing people, papers and printers");
        clock.Set(today.AddDays(-DemoHistory.Days - 1), 9);
        await hand.FurnishAsync(cancel);
        tell.Report("Painting pictures");
        var desk = new DemoDesk(hand, await DemoPictures.PaintAsync(files, cancel));
        tell.Report("Living through half a year: printing charts, making profiles, taking orders");
        await new DemoHistory(hand, desk, new(hand)).LiveAsync(today, new Tenths(tell), cancel);
        await hand.CareAsync(today, cancel);
        clock.Set(today.AddDays(-1), 16);
        await new DemoBooks(hand).WriteAsync(today, cancel);
        tell.Report("Laying out today");
        await new DemoToday(hand, desk).BeginAsync(now, today, cancel);
        await new DemoInks(hand).WriteAsync(today, cancel);
        await using (var db = room.Open())
        {
            await db.Database.ExecuteSqlRawAsync("PRAGMA wal_checkpoint(TRUNCATE)", cancel);
        }
    }

    private static void Clear(string making)
    {
        SqliteConnection.ClearAllPools(); // a pooled connection keeps the file open
        if (Directory.Exists(making))
        {
            Directory.Delete(making, recursive: true);
        }
    }

    /// <param name="IsNew">False when it was there already.</param>
    public sealed record Ready(bool IsNew);

    public sealed record IsNotADemo(string Folder)
        : Refusal($"{Folder} holds something else. The demonstration is only put into a folder that is empty or its own. Nothing was changed.");

    /// <summary>Nothing made here is precious before it is whole: the disk need not be waited for at each step.</summary>
    private sealed class WithoutWaiting : DbConnectionInterceptor
    {
        public override void ConnectionOpened(System.Data.Common.DbConnection connection, ConnectionEndEventData eventData)
        {
            using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA synchronous = OFF";
            command.ExecuteNonQuery();
        }

        public override async Task ConnectionOpenedAsync(
            System.Data.Common.DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
        {
            await using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA synchronous = OFF";
            await command.ExecuteNonQueryAsync(cancellationToken);
        }
    }

    private sealed class Tenths(IProgress<string> tell) : IProgress<double>
    {
        private int said;

        public void Report(double value)
        {
            if ((int)(10 * value) > said)
            {
                said = (int)(10 * value);
                tell.Report($"  {10 * said} %");
            }
        }
    }
}

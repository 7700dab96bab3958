using System.CommandLine;
using Goodsheet.App.Demo;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.Cli;

/// <summary><c>--demo</c>: the demonstration room instead of the keeper's.</summary>
internal static class DemoOption
{
    public static readonly Option<bool> Demo = new("--demo")
    {
        Description = "Open a demonstration room, invented from end to end, in a folder of its own.",
    };

    /// <summary>Opens the demonstration room, and makes it if it is not there yet.</summary>
    public static async Task<Outcome<Opened>> OpenAsync(ParseResult line, CancellationToken cancel)
    {
        if (line.GetValue(RoomOption.Postgres) is not null)
        {
            return new LivesInAFolder();
        }

        var folder = Folder(line);
        var say = line.InvocationConfiguration.Error;
        var ready = await DemoRoom.MakeReadyAsync(folder, TimeProvider.System.GetLocalNow(), TimeZoneInfo.Local, new Said(say), cancel);
        if (!ready.Granted)
        {
            return ready.Refusal;
        }

        await say.WriteLineAsync($"The demonstration room is in {folder}. Take that folder away to have it made anew, for the day it is then.");
        return new Opened(RoomStore.InFile(Path.Combine(folder, "room.db")), new(Path.Combine(folder, "files")));
    }

    // Never the keeper's own room: a folder beside it, unless another is named.
    private static string Folder(ParseResult line)
    {
        var folder = line.GetRequiredValue(RoomOption.Room).FullName;
        return line.GetResult(RoomOption.Room) is { Implicit: false } ? folder : folder + "-demonstration";
    }

    public sealed record Opened(RoomStore Store, FileShelf Files);

    public sealed record LivesInAFolder() : Refusal("The demonstration is kept in a folder, not on a server. Leave --postgres out.");

    private sealed class Said(TextWriter writer) : IProgress<string>
    {
        public void Report(string value) => writer.WriteLine(value);
    }
}

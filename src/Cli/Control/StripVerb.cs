using System.CommandLine;
using Goodsheet.App.Settings;
using Goodsheet.App;
using Goodsheet.App.Control;
using Goodsheet.App.Profiles;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.Cli.Control;

/// <summary><c>strip</c>: whether a printing condition has moved, and why; without a room, or taken into one.</summary>
public static class StripVerb
{
    private static readonly Argument<string> Chart = new("CHART") { Description = "The chart its profile was made from, with spectra." };
    private static readonly Argument<string> Strip = new("STRIP") { Description = "The strip as read now, of patches of that chart." };
    private static readonly Option<string?> Profile = new("--profile") { Description = "The profile made from the chart: says whether colours were converted twice." };
    private static readonly Option<int> Number = new("--of") { Description = "The number of the profile in the room that it is a strip of.", Required = true };
    private static readonly Option<string> Note = new("--note") { Description = "Anything that was not as usual.", DefaultValueFactory = _ => "" };

    public static Command Create()
    {
        var check = new Command("check", "Says whether a printing condition has moved, why, and what a correction would bring.") { Chart, Strip, Profile, Answer.Json };
        check.SetAction(async (line, cancel) => await line.GiveAsync(
            await new CheckStrip().RunAsync(new(line.GetRequiredValue(Chart), line.GetRequiredValue(Strip), line.GetValue(Profile)), cancel), done => done, Says));
        var take = new Command("take", "Takes a strip into the room: onto the control chart of its profile, whose standing follows.") { Strip, Number, Note, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        take.SetAction(async (line, cancel) => await line.GiveAsync(await TakeAsync(line, cancel), done => done, done => $"Strip {done.Strip}: {Says(done.Verdict)}"));
        return new("strip", "Control strips.") { check, take };
    }

    private static async Task<Outcome<TakeStrip.Done>> TakeAsync(ParseResult line, CancellationToken cancel)
    {
        var path = line.GetRequiredValue(Strip);
        if (!File.Exists(path))
        {
            return new NoSuchFile(Path.GetFileName(path));
        }

        var (store, files) = line.OpenRoom();
        await store.MigrateAsync(cancel);
        await using var content = File.OpenRead(path);
        var kept = await files.KeepAsync(content, cancel);
        return await new TakeStrip(store, files, await store.ClockAsync(cancel)).RunAsync(
            new(PersonName.TheRoom, kept.Hash, Path.GetFileName(path), line.GetValue(Number), line.GetRequiredValue(Note)), cancel);
    }

    private static string Says(StripVerdict verdict) =>
        $"{verdict.Patches} patches, {verdict.Mean:0.00} dE00 on average, {verdict.Largest:0.0} at most. {verdict.InWords} {verdict.Advice}";
}

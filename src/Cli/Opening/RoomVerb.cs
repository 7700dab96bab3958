using System.CommandLine;
using Goodsheet.App.Settings;
using Goodsheet.App;
using Goodsheet.App.Opening;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.Cli.Opening;

/// <summary><c>room import</c>: takes all that a room has in from lists and profiles, in one pass.</summary>
public static class RoomVerb
{
    private static readonly Argument<FileInfo[]> Lists = new("files") { Description = "Lists as CSV, and the profiles that one of them names.", Arity = ArgumentArity.OneOrMore };
    private static readonly Option<DecimalMark> Mark = new("--decimals") { Description = "What stands before decimals: Point or Comma.", Required = true };
    private static readonly Option<bool> Look = new("--look") { Description = "Only say what would be taken in." };

    public static Command Create()
    {
        var import = new Command("import", "Takes papers, suppliers, clients, the shelf, prices, consumables and profiles in: all of it or nothing.")
        {
            Lists, Mark, Look, RoomOption.Room, RoomOption.Postgres, Answer.Json,
        };
        import.SetAction(async (line, cancel) =>
        {
            var (store, files) = line.OpenRoom();
            await store.MigrateAsync(cancel);
            var outcome = await new BringInRoom(store, files, await store.ClockAsync(cancel)).RunAsync(
                new(PersonName.TheRoom, [.. line.GetRequiredValue(Lists).Select(f => (f.Name, f.FullName))], line.GetValue(Mark), line.GetValue(Look)), cancel);
            return await line.GiveAsync(Refused(outcome), done => done, done => string.Join('\n', Says(done)));
        });
        return new("room", "The room as a whole.") { import };
    }

    // A script has to see by the exit code that nothing was taken in.
    private static Outcome<BringInRoom.Done> Refused(Outcome<BringInRoom.Done> outcome) =>
        outcome.Value is { Wrong: > 0 } done ? new LinesAreWrong(string.Join('\n', Says(done))) : outcome;

    private static IEnumerable<string> Says(BringInRoom.Done done)
    {
        foreach (var file in done.Files)
        {
            yield return $"{file.Name}: {file.Kind?.ToString().ToLowerInvariant() ?? "not read"}, {file.Lines.Count(l => l.State is LineState.Fine)} fine, {file.Lines.Count(l => l.State is LineState.Known)} known, {file.Lines.Count(l => l.State is LineState.Wrong)} wrong";
            foreach (var line in file.Lines.Where(l => l.State is not LineState.Fine))
            {
                yield return $"  {(line.Line > 0 ? $"line {line.Line}: " : "")}{line.Says}";
            }
        }

        yield return done.TakenIn ? "It is all in." : "Nothing was taken in.";
    }

    private sealed record LinesAreWrong(string Report) : Refusal(Report);
}

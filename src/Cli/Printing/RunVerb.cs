using System.CommandLine;
using Goodsheet.App;
using Goodsheet.App.Printing;
using Goodsheet.Room;

namespace Goodsheet.Cli.Printing;

/// <summary><c>run sheets</c>: makes the files of a run's sheets and hands them to its printer, as the run's page does.</summary>
public static class RunVerb
{
    private static readonly Argument<int> Number = new("number") { Description = "The run." };

    public static Command Create()
    {
        var sheets = new Command("sheets", "Makes the files of a run's sheets and hands them to its printer.") { Number, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        sheets.SetAction(RunAsync);
        return new("run", "What goes to a printer.") { sheets };
    }

    private static async Task<int> RunAsync(ParseResult line, CancellationToken cancel)
    {
        var (store, files) = line.OpenRoom();
        await store.MigrateAsync(cancel);
        await using var services = new ServiceCollection().AddGoodsheet(store, files).BuildServiceProvider();
        var number = line.GetRequiredValue(Number);
        var said = await ActivatorUtilities.CreateInstance<SendSheets>(services).DoNowAsync($"Sheets of run {number}", cancel);
        var page = await services.GetRequiredService<ShowSheets>().RunAsync(number, cancel);
        return await line.GiveAsync<Done>(
            page is { Sheets.Count: > 0 } made ? new Done(made) : new NothingWasMade(said),
            done => new { said, sheets = done.Page.Sheets.Select(s => new { s.Sheet.Number, s.Sheet.Copies, file = files.PathOf(s.Sheet.FileHash), s.Sheet.SentAt, s.Sheet.Job }) },
            done => string.Join(Environment.NewLine, [said, .. done.Page.Sheets.Select(s => $"sheet {s.Sheet.Number}, printed {s.Sheet.Copies} times: {files.PathOf(s.Sheet.FileHash)}")]));
    }

    private sealed record Done(ShowSheets.Page Page);

    private sealed record NothingWasMade(string Said) : Refusal(Said);
}

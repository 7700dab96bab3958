using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Settings;
using Goodsheet.App;
using Goodsheet.App.Orders;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.Cli.Orders;

/// <summary><c>order</c>: takes lists of orders in.</summary>
public static class OrderVerb
{
    private const int MostBytes = 20_000_000;

    private static readonly Argument<FileInfo> Csv = new("file") { Description = "The list as CSV; its first line names the columns." };
    private static readonly Option<DirectoryInfo?> Pictures = new("--pictures") { Description = "The folder the pictures lie in; the one named on the page if nothing is said." };
    private static readonly Option<bool> Look = new("--look") { Description = "Only say what would come of it." };

    public static Command Create()
    {
        var import = new Command("import", "Takes a list of orders in; a wrong line is refused, the rest goes on.") { Csv, Pictures, Look, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        import.SetAction(async (line, cancel) =>
        {
            var file = line.GetRequiredValue(Csv);
            var outcome = file is { Exists: true, Length: <= MostBytes } ? await TakeAsync(line, file, cancel) : new NoFile(file.Name);
            var exit = await line.GiveAsync(outcome, done => new { done.Taken, done.TakenBefore, Refused = done.Refused.ToList() }, Says);
            return outcome.Granted && outcome.Value.Refused.Any() ? Exit.Refused : exit;
        });
        return new("order", "Orders from lists.") { import };
    }

    private static async Task<Outcome<ImportOrders.Done>> TakeAsync(ParseResult line, FileInfo file, CancellationToken cancel)
    {
        var (store, files) = line.OpenRoom();
        await store.MigrateAsync(cancel);
        return await new ImportOrders(store, files, await store.ClockAsync(cancel)).RunAsync(
            new(PersonName.TheRoom, await File.ReadAllTextAsync(file.FullName, cancel), line.GetValue(Look), line.GetValue(Pictures)?.FullName), line.Progress(), cancel);
    }

    private static string Says(ImportOrders.Done done) => string.Join('\n',
    [
        string.Create(CultureInfo.CurrentCulture, $"{done.Taken} lines {(done.WasLook ? "would be taken in" : "taken in")}, {done.TakenBefore} were here already, {done.Refused.Count()} refused."),
        .. done.Refused.Select(l => $"Line {l.Number}: {l.Says}."),
    ]);

    private sealed record NoFile(string Name) : Refusal($"{Name} is not here, or larger than {MostBytes / 1_000_000} MB. Nothing was taken in.");
}

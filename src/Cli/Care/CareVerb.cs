using System.CommandLine;
using System.Globalization;
using Goodsheet.App;
using Goodsheet.App.Care;
using Goodsheet.Room;

namespace Goodsheet.Cli.Care;

/// <summary><c>care</c>: takes a logger's readings of the air in.</summary>
public static class CareVerb
{
    private static readonly Argument<FileInfo> Csv = new("file") { Description = "The logger's CSV." };
    private static readonly Option<TemperatureUnit?> Unit = new("--unit") { Description = "Celsius or Fahrenheit, where the file does not say." };
    private static readonly Option<DateOrder?> Order = new("--dates") { Description = "DayFirst or MonthFirst, where the file does not show." };
    private static readonly Option<bool> Look = new("--look") { Description = "Only say what would be taken in." };

    public static Command Create()
    {
        var import = new Command("import", "Takes temperature and humidity from a logger's CSV.") { Csv, Unit, Order, Look, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        import.SetAction(async (line, cancel) =>
        {
            var file = line.GetRequiredValue(Csv);
            var outcome = file is { Exists: true, Length: <= ImportAir.MostBytes } ? await TakeAsync(line, file, cancel) : new NoFile(file.Name);
            return await line.GiveAsync(outcome, done => done, Says);
        });
        return new("care", "The room's air.") { import };
    }

    private static async Task<Outcome<ImportAir.Done>> TakeAsync(ParseResult line, FileInfo file, CancellationToken cancel)
    {
        var (store, _) = line.OpenRoom();
        await store.MigrateAsync(cancel);
        return await new ImportAir(store).RunAsync(
            new(await File.ReadAllTextAsync(file.FullName, cancel), new(line.GetValue(Unit), line.GetValue(Order)), line.GetValue(Look)), cancel);
    }

    private static string Says(ImportAir.Done done) => string.Join('\n',
    [
        string.Create(CultureInfo.CurrentCulture, $"{done.Read} readings from {done.From:d MMM yyyy HH:mm} to {done.To:d MMM yyyy HH:mm}, {done.Fresh} new{(done.TakenIn ? ", taken in" : "; nothing was taken in")}."),
        .. done.Findings,
    ]);

    private sealed record NoFile(string Name) : Refusal($"{Name} is not here, or larger than {ImportAir.MostBytes / 1_000_000} MB. Nothing was taken in.");
}

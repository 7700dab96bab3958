using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Colour.Measurement;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>Makes the profile of a printing condition, as long work. About: the numbers of its readings, the newest last, and perhaps "the mean of their days", how much ink, which black, "fine tables", "warm lamp".</summary>
public sealed partial class MakeRoomProfile(RoomStore room, FileShelf files, TimeProvider clock, MakeProfile make) : LongWork(room)
{
    // With fewer patches than this, a paper that is known helps; one of this many knows the printer.
    private const int Few = 100;
    private const int Many = 300;

    /// <summary>The last words about a profile whose colours are those under such a lamp.</summary>
    public const string WarmLamp = "warm lamp";

    /// <summary>The words about a profile whose tables are as fine as they get.</summary>
    public const string FineTables = "fine tables";

    private const int FineGrid = 45;

    /// <summary>Words about a profile of the mean of all its readings' days; without them it is of the day of the newest.</summary>
    public const string MeanOfDays = "the mean of their days";

    /// <summary>What is to be said of the inks of a CMYK profile; empty where nothing is.</summary>
    public static string InkWords(int? limit, BlackStart black) =>
        (limit is { } most ? $" with at most {most}% ink" : "") + (black is BlackStart.Usual ? "" : $", {Words(black)}");

    private static string Words(BlackStart black) => black is BlackStart.Late ? "late black" : "early black";

    [GeneratedRegex(@"(\d{1,4})% ink")]
    private static partial Regex Ink();

    /// <summary>Nodes along each side of the tables; none for what suits.</summary>
    internal int? Grid { get; set; }

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        int[] numbers = [.. about.Split(' ').Where(w => w.All(char.IsAsciiDigit)).Select(w => int.Parse(w, CultureInfo.InvariantCulture))];
        var number = numbers[^1];
        await using var db = Room.Open();
        var readings = await db.Readings.AsNoTracking().Where(r => numbers.Contains(r.Number)).OrderByDescending(r => r.Number).ToListAsync(cancel);
        var reading = readings[0];
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == reading.Paper, cancel);
        var condition = await db.Conditions.AsNoTracking().SingleAsync(c => c.Code == reading.Condition, cancel);
        await tell(2);
        var warm = about.EndsWith(WarmLamp, StringComparison.Ordinal);
        var printer = await db.Printers.AsNoTracking().Where(p => p.Code == condition.Printer).Select(p => p.Name).SingleAsync(cancel);
        var name = $"{paper.Name} on {printer}, {clock.Today():yyyy-MM-dd}{(warm ? $", for a {WarmLamp}" : "")}";
        var known = readings.Sum(r => r.Patches) < Few ? await KnownAsync(db, reading, condition.Printer, cancel) : null;
        var done = await make.RunAsync(
            new([.. readings.Select(r => files.PathOf(r.FileHash))], name, Grid: about.Contains(FineTables, StringComparison.Ordinal) ? FineGrid : Grid, Matte: paper.Coat is Coat.Dull, Known: known is null ? null : [files.PathOf(known.FileHash)], Condition: ChartReading.ConditionOf(reading.MCondition),
                Light: warm ? ViewingLight.WarmLamp : null,
                InkLimit: Ink().Match(about) is { Success: true } ink ? int.Parse(ink.Groups[1].ValueSpan, CultureInfo.InvariantCulture) : null,
                Black: about.Contains(Words(BlackStart.Late), StringComparison.Ordinal) ? BlackStart.Late : about.Contains(Words(BlackStart.Early), StringComparison.Ordinal) ? BlackStart.Early : BlackStart.Usual,
                MeanOfDays: about.Contains(MeanOfDays, StringComparison.Ordinal)),
            new Progress<double>(p => tell((int)(2 + (95 * p)))), cancel);
        if (!done.Granted)
        {
            return done.Refusal.Message;
        }

        var path = files.NewPath(".icc");
        await File.WriteAllBytesAsync(path, done.Value.File, cancel);
        var kept = await files.KeepMadeAsync(path, cancel);
        var worth = done.Value.Worth;
        var stored = await Room.ChangeAsync<Stored>(async change =>
        {
            if (await change.Profiles.FirstOrDefaultAsync(p => p.MadeFrom == number && p.FileHash == kept.Hash, cancel) is { } again)
            {
                return new Stored(again.Number);
            }

            var profile = await change.NewProfileAsync(
                condition.Code, number, name, kept.Hash, worth, new(clock.GetUtcNow(), AskedBy, "just made; trust it when its figures and a print convince you"), cancel);
            change.Profiles.Add(profile);
            return new Stored(profile.Number);
        }, cancel);
        return $"Profile {stored.Value!.Number} is made{(known is null ? "" : $", with the help of reading {known.Number} on another paper")}: {worth.Verdict.ToLowerInvariant()}.";
    }

    // The largest chart of another paper on the same printer, read under the same light.
    private static Task<Reading?> KnownAsync(RoomDb db, Reading reading, PrinterCode printer, CancellationToken cancel) => (
        from other in db.Readings.AsNoTracking()
        join condition in db.Conditions on other.Condition equals condition.Code
        where condition.Printer == printer && other.Paper != reading.Paper && other.MCondition == reading.MCondition && other.Patches >= Many
        orderby other.Patches descending, other.Number descending
        select other).FirstOrDefaultAsync(cancel);

    private sealed record Stored(int Number);
}

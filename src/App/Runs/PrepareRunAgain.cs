using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Runs;

/// <summary>Makes the files of a planned run again with the profile that holds now, and lets the run go by it, as long work. About: "Files of run NUMBER made again".</summary>
public sealed class PrepareRunAgain(RoomStore room, FileShelf files, TimeProvider clock) : LongWork(room)
{
    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var number = int.Parse(about.Split(' ')[3], CultureInfo.InvariantCulture);
        await using var db = Room.Open();
        if (await db.Runs.AsNoTracking().SingleOrDefaultAsync(r => r.Number == number, cancel) is not { } run)
        {
            return $"There is no run {number}.";
        }

        if (run.State is not RunState.Planned)
        {
            return $"Run {number} has begun already: its files stay as they are.";
        }

        var profile = await db.Profiles.AsNoTracking()
            .Where(p => p.Condition == run.Condition && (p.Standing == Standing.Trusted || p.Standing == Standing.Due))
            .OrderByDescending(p => p.Number).FirstOrDefaultAsync(cancel);
        if (profile is null)
        {
            return "No profile of this paper on this printer is trusted: nothing was made. Trust one, or lay the prints anew on another printer.";
        }

        var with = await PrintFiles.WithAsync(db, profile, cancel);
        var lines = await (
            from print in db.RunPrints.AsNoTracking()
            join line in db.PrintLines.AsNoTracking() on new { print.Order, print.Line } equals new { line.Order, line.Line }
            where print.Run == number
            orderby print.Order, print.Line
            select line).ToListAsync(cancel);
        foreach (var (line, i) in lines.Select((l, i) => (l, i)))
        {
            var made = await new PrintFiles(Room, files, clock).MakeAsync(line, with, p => tell((int)(95 * (i + p) / lines.Count)), cancel);
            if (!made.Granted)
            {
                return made.Refusal.Message;
            }
        }

        var stored = await db.Runs.SingleAsync(r => r.Number == number, cancel);
        stored.Profile = profile.Number;
        db.RunSheets.RemoveRange(await db.RunSheets.Where(s => s.Run == number).ToListAsync(cancel)); // they hold the old files
        await db.SaveChangesAsync(cancel);
        return $"The files of run {number} are made again with profile {profile.Number}, and its card goes by it.";
    }
}

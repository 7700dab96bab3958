using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Printing;

/// <summary>The files of a run's sheets, and what the printer says of the jobs it was given.</summary>
public sealed class ShowSheets(RoomStore room, NetworkPrinters network)
{
    public async Task<Page?> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var run = await db.Runs.AsNoTracking().SingleOrDefaultAsync(r => r.Number == number, cancel);
        if (run is null)
        {
            return null;
        }

        var printer = await db.Printers.AsNoTracking().SingleAsync(p => p.Code == run.Printer, cancel);
        var sheets = await db.RunSheets.AsNoTracking().Where(s => s.Run == number).OrderBy(s => s.Number).ToListAsync(cancel);
        var lines = new List<Line>();
        var away = false;
        foreach (var sheet in sheets)
        {
            JobSays? says = null;
            if (!away && run.State is RunState.Planned or RunState.Printing && sheet.Job is { } job && IppClient.Address(sheet.SentTo) is { } address)
            {
                var answer = await network.ToAsk(address).JobAsync(job, cancel);
                away = answer.Refusal is PrinterIsAway;
                says = answer.Granted ? JobSays.Of(answer.Value) : null;
            }

            lines.Add(new(sheet, says));
        }

        return new(printer, lines, away);
    }

    /// <param name="Printer">Of the run.</param>
    /// <param name="Sheets">Empty until they are made.</param>
    /// <param name="Away">The printer did not answer just now.</param>
    public sealed record Page(Printer Printer, IReadOnlyList<Line> Sheets, bool Away);

    /// <param name="Sheet">The file.</param>
    /// <param name="Job">What the printer says of it now; none when it was not asked or does not know.</param>
    public sealed record Line(RunSheet Sheet, JobSays? Job);
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Runs;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Imaging;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Printing;

/// <summary>Makes the files of a run's sheets and hands them to its printer, as long work. About: "Sheets of run NUMBER".</summary>
/// <remarks>
/// After a kill it goes on where it was: a sheet whose file is made is not made again, and one that was being sent is
/// first looked for at the printer by the name of its job, so that no sheet is printed twice.
/// </remarks>
public sealed class SendSheets(RoomStore room, FileShelf files, TimeProvider clock, NetworkPrinters network) : LongWork(room)
{
    private const int MadeAtPercent = 80;
    private const int MostTries = 1_800;

    private static readonly TimeSpan BetweenTries = TimeSpan.FromSeconds(1);

    private static readonly TimeSpan TellEvery = TimeSpan.FromSeconds(0.5);

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var number = int.Parse(about.Split(' ')[^1], CultureInfo.InvariantCulture);
        await using var db = Room.Open();
        if (await RunCard.LoadAsync(db, number, cancel) is not { } card)
        {
            return $"There is no run {number}.";
        }

        if (await OrderStops.OfAsync(db, number, cancel) is { Count: > 0 } stops)
        {
            return $"{string.Join(" ", stops.Select(s => s.Stop.Message))} Nothing was sent. Settle it at the order, or begin the run with a reason first.";
        }

        if (card.Halts is { Count: > 0 } halts)
        {
            return $"{string.Join(" ", halts.Select(h => h.Why.Message))} Nothing was sent. Settle it, or decide on the run card first.";
        }

        var fault = await MakeAsync(card, tell, cancel);
        if (fault is not null)
        {
            return fault;
        }

        var sheets = await db.RunSheets.AsNoTracking().Where(s => s.Run == number && s.SentAt == null).OrderBy(s => s.Number).ToListAsync(cancel);
        foreach (var (sheet, i) in sheets.Select((s, i) => (s, i)))
        {
            await tell(MadeAtPercent + (19 * i / sheets.Count));
            var refused = card.Printer.HandOver switch
            {
                HandOver.Folder => await PutAsync(card.Printer, sheet, cancel),
                HandOver.Network => await SendAsync(card.Printer, sheet, cancel),
                _ => null,
            };
            if (refused is not null)
            {
                return refused;
            }
        }

        return card.Printer.HandOver switch
        {
            HandOver.Folder => $"The files of run {number} lie in the folder of {card.Printer.Name}.",
            HandOver.Network => $"{card.Printer.Name} has the files of run {number}.",
            _ => $"The files of run {number} are made. Take them from the run's page, and print them without colour management, at 100 %.",
        };
    }

    /// <summary>The folder of the room that a printer's driver looks into.</summary>
    internal static string FolderOf(FileShelf files, PrinterCode printer) =>
        Path.Combine(Path.GetDirectoryName(Path.GetFullPath(files.Folder))!, "to-print", printer.Value);

    private async Task<string?> MakeAsync(RunCard card, Func<int, Task> tell, CancellationToken cancel)
    {
        if (card.Prints.FirstOrDefault(p => p.Line.PreparedHash is null || !files.Has(p.Line.PreparedHash)) is { } missing)
        {
            return $"The prepared file of “{missing.Line.Title}” is not there. Prepare it again.";
        }

        var plans = SheetPlans.Of(card, (order, line) => files.PathOf(card.Prints.Single(p => p.Run.Order == order && p.Run.Line == line).Line.PreparedHash!), clock.Today()).ToList();
        var profile = files.Has(card.Profile.FileHash) ? await File.ReadAllBytesAsync(files.PathOf(card.Profile.FileHash), cancel) : null;
        if (await LacksRoomAsync(card, plans, profile, cancel) is { } full)
        {
            return full;
        }

        for (var i = 0; i < plans.Count; i++)
        {
            var (sheet, copies, plan) = plans[i];
            await using var db = Room.Open();
            if (await db.RunSheets.AsNoTracking().FirstOrDefaultAsync(s => s.Run == card.Run.Number && s.Number == sheet, cancel) is { } known && files.Has(known.FileHash))
            {
                continue;
            }

            var output = files.NewPath(".tif");
            var (told, done) = (clock.GetTimestamp(), i);
            var made = SheetFile.Write(plan, profile, output, new Progress<double>(p =>
            {
                if (clock.GetElapsedTime(told) > TellEvery)
                {
                    told = clock.GetTimestamp();
                    _ = tell((int)(MadeAtPercent * (done + p) / plans.Count));
                }
            }), files.Disk, cancel);
            if (made.Value is not { } prepared)
            {
                return made.Fault!.Message;
            }

            var kept = await files.KeepMadeAsync(output, cancel);
            db.RunSheets.RemoveRange(await db.RunSheets.Where(s => s.Run == card.Run.Number && s.Number == sheet).ToListAsync(cancel));
            db.RunSheets.Add(new() { Run = card.Run.Number, Number = sheet, Copies = copies, FileHash = kept.Hash, Width = prepared.Width, Height = prepared.Height });
            await db.SaveChangesAsync(cancel);
        }

        return null;
    }

    // For all sheets that are still to be made, and where a driver looks into a folder for the copy of each that is put there.
    private async Task<string?> LacksRoomAsync(RunCard card, IReadOnlyList<(int Number, int Copies, SheetPlan Plan)> plans, byte[]? profile, CancellationToken cancel)
    {
        await using var db = Room.Open();
        var known = await db.RunSheets.AsNoTracking().Where(s => s.Run == card.Run.Number).ToListAsync(cancel);
        var made = known.Where(s => files.Has(s.FileHash)).Select(s => s.Number).ToHashSet();
        var times = card.Printer.HandOver is HandOver.Folder ? 2 : 1;
        return RoomForSheets.Lacks(files.Disk, files.Folder, profile, c => times * plans.Where(p => !made.Contains(p.Number)).Sum(p => p.Plan.Bytes(c)))?.Message;
    }

    private async Task<string?> PutAsync(Printer printer, RunSheet sheet, CancellationToken cancel)
    {
        var folder = FolderOf(files, printer.Code);
        Directory.CreateDirectory(folder);
        var name = $"run-{sheet.Run}-sheet-{sheet.Number}{(sheet.Copies > 1 ? $"-print-{sheet.Copies}-times" : "")}.tif";
        var coming = Path.Combine(folder, $".{name}.coming");
        try
        {
            File.Copy(files.PathOf(sheet.FileHash), coming, overwrite: true);
            File.Move(coming, Path.Combine(folder, name), overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            File.Delete(coming);
            return $"The file of sheet {sheet.Number} could not be put into the folder: {e.Message}";
        }

        await NoteAsync(sheet, s => (s.SentTo, s.SentAt, s.SentBy) = (name, clock.GetUtcNow(), AskedBy), cancel);
        return null;
    }

    private async Task<string?> SendAsync(Printer printer, RunSheet sheet, CancellationToken cancel)
    {
        if (IppClient.Address(printer.Address) is not { } address)
        {
            return new NoAddress(printer.Address).Message;
        }

        var says = await network.AskAsync(printer.Address, cancel);
        if (!says.Granted)
        {
            return says.Refusal.Message;
        }

        if (!says.Value.TakesTiff || !says.Value.Accepts)
        {
            return says.Value.TakesTiff
                ? $"{printer.Name} takes no jobs now{(says.Value.Because.Count > 0 ? $": {string.Join(", ", says.Value.Because)}" : "")}. Send again when it does."
                : $"{printer.Name} does not take TIFF files, only {string.Join(", ", says.Value.Formats.Take(8))}. Hand the files over by a folder or by hand.";
        }

        var client = network.ToSend(address);
        var job = sheet.SentTo.Length > 0 ? await client.FindAsync(sheet.JobName, cancel) : 0; // begun before a kill: perhaps it is there
        if (job is { Granted: true, Value: 0 })
        {
            await NoteAsync(sheet, s => s.SentTo = printer.Address, cancel);
            for (var tries = 1; ; tries++)
            {
                await using var file = File.OpenRead(files.PathOf(sheet.FileHash));
                job = await client.PrintAsync(file, PrinterSays.Tiff, sheet.JobName, AskedBy.ToString(), sheet.Copies, cancel);
                if (job.Refusal is not PrinterIsBusy || tries == MostTries)
                {
                    break;
                }

                await Task.Delay(BetweenTries, cancel); // it takes one job at a time: the next when this one is through
            }
        }

        if (!job.Granted)
        {
            return job.Refusal.Message;
        }

        await NoteAsync(sheet, s => (s.SentTo, s.SentAt, s.SentBy, s.Job) = (printer.Address, clock.GetUtcNow(), AskedBy, job.Value), cancel);
        return null;
    }

    private async Task NoteAsync(RunSheet sheet, Action<RunSheet> change, CancellationToken cancel)
    {
        await using var db = Room.Open();
        change(await db.RunSheets.SingleAsync(s => s.Run == sheet.Run && s.Number == sheet.Number, cancel));
        await db.SaveChangesAsync(cancel);
    }
}

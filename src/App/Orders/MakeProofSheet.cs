using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Printing;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Colour.Icc;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Orders;

/// <summary>Makes a sheet of small proofs of a print, through the tables it will be printed with, as long work. About: see <see cref="About"/>.</summary>
public sealed class MakeProofSheet(RoomStore room, FileShelf files, TimeProvider clock) : LongWork(room)
{
    private const int MostOthers = 11;

    /// <summary>"Proofs of KIND on WIDTH HEIGHT mm, of print ORDER/LINE".</summary>
    public static string About(PrintLine print, ProofsOf of, Format format) => string.Create(
        CultureInfo.InvariantCulture, $"Proofs of {ProofCells.Words(of)} on {format.Width.Millimetres} {Along(format)} of print {print.Order}/{print.Line}");

    // Of a roll as much as it is wide: a square of small prints.
    private static double Along(Format format) => format.IsRoll ? format.Width.Millimetres : format.Height.Millimetres;

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var said = about.Split(' ');
        var of = said[2] == ProofCells.Words(ProofsOf.Papers) ? ProofsOf.Papers : ProofsOf.Intents;
        var (width, height) = (double.Parse(said[4], CultureInfo.InvariantCulture), double.Parse(said[5], CultureInfo.InvariantCulture));
        var (order, line) = PrintNow.Of(about);
        await using var db = Room.Open();
        if (await PrintNow.LoadAsync(db, order, line, cancel) is not { } print)
        {
            return PrintNow.NoProfile;
        }

        var intent = (RenderingIntent)(int)print.Line.Intent;
        var cells = of is ProofsOf.Papers
            ? ProofCells.Papers(print.Paper.Name, await OthersAsync(db, print.Paper.Code, cancel), intent, print.Line.BlackPointCompensation)
            : ProofCells.Intents();
        if (cells.Count == 1)
        {
            return "No other paper of the line-up has a trusted profile: there is nothing to put beside this one.";
        }

        var (profile, margin) = (print.With.Profile, print.With.Printer.Margin.Millimetres);
        var output = files.NewPath(".tif");
        var what = of is ProofsOf.Papers ? $"{cells.Count} papers, shown on {print.Paper.Name}" : $"intents and lightness on {print.Paper.Name}";
        var made = ProofSheetFile.Write(
            new(
                files.PathOf(print.Line.ImageHash), await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel), print.Recipe,
                print.Line.Width.Millimetres / print.Line.Height.Millimetres, cells, width - (2 * margin), height - (2 * margin),
                string.Create(CultureInfo.InvariantCulture, $"Order {order} print {line} - {print.Paper.Name} - profile {profile.Number} - {clock.Today():yyyy-MM-dd}"), output),
            new PrintFiles(Room, files, clock).Told(p => tell((int)(95 * p))), files.Disk, cancel);
        if (made.Fault is { } fault)
        {
            return fault.Message;
        }

        var kept = await files.KeepMadeAsync(output, cancel);
        db.ProofSheets.Add(new()
        {
            Order = order,
            Line = line,
            Number = (await db.ProofSheets.Where(s => s.Order == order && s.Line == line).MaxAsync(s => (int?)s.Number, cancel) ?? 0) + 1,
            What = what,
            Profile = profile.Number,
            FileHash = kept.Hash,
            At = clock.GetUtcNow(),
            By = AskedBy,
        });
        await db.SaveChangesAsync(cancel);
        return $"A sheet of {cells.Count} proofs is made. Print it on {print.Paper.Name} without colour management in the driver, at 100 %.";
    }

    private async Task<IReadOnlyList<(string Name, byte[] Profile)>> OthersAsync(RoomDb db, PaperCode own, CancellationToken cancel)
    {
        var others = new List<(string, byte[])>();
        foreach (var paper in await db.Papers.AsNoTracking().Where(p => p.LineUp == LineUp.In && p.Code != own).OrderBy(p => p.Name).ToListAsync(cancel))
        {
            if (others.Count < MostOthers && await PreparePrint.ProfileForAsync(db, paper.Code, cancel) is var (profile, _) && files.Has(profile.FileHash))
            {
                others.Add((paper.Name, await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel)));
            }
        }

        return others;
    }
}

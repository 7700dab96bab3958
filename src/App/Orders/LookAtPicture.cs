using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Orders;

/// <summary>Looks at every pixel of a print line's picture and writes down what will go wrong, as long work. About: "Picture of print ORDER/LINE".</summary>
public sealed class LookAtPicture(RoomStore room, FileShelf files, ScreenCopies copies) : LongWork(room)
{
    // A paper is worth naming when it holds this much more of the picture.
    private const double WorthNaming = 0.02;

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var ids = about.Split(' ')[^1].Split('/').Select(n => int.Parse(n, CultureInfo.InvariantCulture)).ToArray();
        await using var db = Room.Open();
        var line = await db.PrintLines.AsNoTracking().SingleAsync(l => l.Order == ids[0] && l.Line == ids[1], cancel);
        var best = await PreparePrint.ProfileForAsync(db, line.Paper, cancel);
        var own = best is var (profile, _) ? Read(profile) : null;
        var copy = await copies.OfAsync(line.ImageHash, cancel);
        if (!copy.Granted)
        {
            return copy.Refusal.Message;
        }

        await tell(30);
        // Without a profile of its paper only the ends can be judged, and any will do.
        var measured = await Task.Run(
            () => ImageStatistics.Measure(files.PathOf(line.ImageHash), own ?? IccProfile.Read(BuiltInProfiles.SRgb()).Profile!, line.BlackPointCompensation, cancel), cancel);
        if (measured.Value is not { } pixels)
        {
            return measured.Fault!.Message;
        }

        await tell(70);
        var ppi = PrintCheck.PixelsPerInch((line.PixelsWide, line.PixelsHigh), (line.Width, line.Height));
        var said = PrintCheck.OfPixels(pixels, ppi, line.ViewingDistance).Where(s => own is not null || s.Kind != PrintCheck.NotHeld).ToList();
        if (said.FindIndex(s => s.Kind == PrintCheck.NotHeld) is >= 0 and var at && await BetterAsync(db, line, copy.Value, pixels.MissedColours.Share, cancel) is { } better)
        {
            said[at] = said[at] with { Help = better };
        }

        await KeepAsync(line, said, cancel);
        return said.Count == 0 ? "Nothing will go wrong that can be seen in the pixels." : $"{said.Count} things to know are on the order's page.";
    }

    private async Task KeepAsync(PrintLine line, List<PrintCheck.Said> said, CancellationToken cancel)
    {
        await using var db = Room.Open();
        var earlier = await db.Findings.Where(f => f.Order == line.Order && f.Line == line.Line).ToListAsync(cancel);
        db.Findings.RemoveRange(earlier.Where(f => PrintCheck.OfPixelsKinds.Contains(f.Kind)));
        var number = earlier.Select(f => f.Number).DefaultIfEmpty().Max();
        db.Findings.AddRange(said.Select(s => new Finding
        {
            Order = line.Order,
            Line = line.Line,
            Number = ++number,
            Kind = s.Kind,
            Severity = s.Severity,
            Text = s.Text,
            Help = s.Help,
        }));
        await db.SaveChangesAsync(cancel);
    }

    // Which paper of the line-up would hold the picture best, if one does it clearly better.
    private async Task<string?> BetterAsync(RoomDb db, PrintLine line, string copy, double share, CancellationToken cancel)
    {
        var papers = await db.Papers.AsNoTracking().Where(p => p.LineUp == LineUp.In && p.Code != line.Paper).ToListAsync(cancel);
        var held = new List<(Paper Paper, double Share)>();
        foreach (var paper in papers)
        {
            if (await PreparePrint.ProfileForAsync(db, paper.Code, cancel) is var (profile, _) && Read(profile) is { } printer)
            {
                var misses = await Task.Run(() => ImageStatistics.Misses(copy, printer, line.BlackPointCompensation, cancel), cancel);
                if (misses.Value is { } found)
                {
                    held.Add((paper, found.Share));
                }
            }
        }

        return held.Count > 0 && held.MinBy(h => h.Share) is var (best, least) && share - least > WorthNaming
            ? $"Look at the proof. {best.Name} would hold all but {100 * least:0.0} % of it."
            : null;
    }

    private IccProfile? Read(Profile profile) =>
        files.Has(profile.FileHash) ? IccProfile.Read(File.ReadAllBytes(files.PathOf(profile.FileHash))).Profile : null;
}

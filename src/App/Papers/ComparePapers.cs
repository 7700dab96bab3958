using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Papers;

/// <summary>Puts papers side by side: their charts, and what each would make of a picture.</summary>
public sealed class ComparePapers(RoomStore room, FileShelf files, ScreenCopies copies)
{
    public const int MostPapers = 12;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var all = await db.Papers.AsNoTracking().Where(p => p.LineUp != LineUp.Gone).OrderBy(p => p.Class).ThenBy(p => p.Name).ToListAsync(cancel);
        var asked = all.Where(p => request.Papers.Contains(p.Code)).Take(MostPapers).ToList();
        var charts = await PaperCharts.OfAsync(db, files, [.. asked.Select(p => p.Code)], cancel);
        var sides = asked.Select(p => new Side(p, [.. charts[p.Code]])).ToList();
        if (request.Picture is not var (order, line))
        {
            return new Done(all, sides, null, []);
        }

        var print = await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == order && l.Line == line, cancel);
        if (print is null)
        {
            return new NoSuchPrint(order, line);
        }

        var copy = await copies.OfAsync(print.ImageHash, cancel);
        if (!copy.Granted)
        {
            return copy.Refusal;
        }

        var held = new List<Held>();
        foreach (var paper in asked)
        {
            if (await PreparePrint.ProfileForAsync(db, paper.Code, cancel) is not var (profile, _) || !files.Has(profile.FileHash)
                || IccProfile.Read(await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel)).Profile is not { } printer)
            {
                held.Add(new(paper.Code, null, null, null, null));
                continue;
            }

            var misses = await Task.Run(() => ImageStatistics.Misses(copy.Value, printer, print.BlackPointCompensation, cancel), cancel);
            held.Add(misses.Value is { } m
                ? new(paper.Code, profile.Number, m.Share, m.MeanOutside, m.Largest)
                : new(paper.Code, null, null, null, null));
        }

        return new Done(all, sides, print, held);
    }

    /// <param name="Papers">Which, up to twelve.</param>
    /// <param name="Picture">Order and line of a print whose picture is to be looked at; none for papers alone.</param>
    public sealed record Request(IReadOnlyList<PaperCode> Papers, (int Order, int Line)? Picture = null);

    /// <param name="All">What can be put side by side.</param>
    /// <param name="Sides">What is.</param>
    /// <param name="Print">The print whose picture was looked at.</param>
    /// <param name="Held">What each paper would make of it.</param>
    public sealed record Done(IReadOnlyList<Paper> All, IReadOnlyList<Side> Sides, PrintLine? Print, IReadOnlyList<Held> Held);

    public sealed record Side(Paper Paper, IReadOnlyList<AssessPaper.Chart> Charts);

    /// <summary>What a paper makes of a picture.</summary>
    /// <param name="Paper">Which.</param>
    /// <param name="Profile">By which profile; none where it has no trusted one, and then nobody can say.</param>
    /// <param name="Share">The share of the picture that is off by more than 2 dE00.</param>
    /// <param name="Mean">The mean dE00 of that share.</param>
    /// <param name="Largest">The largest dE00.</param>
    public sealed record Held(PaperCode Paper, int? Profile, double? Share, double? Mean, double? Largest);

    public sealed record NoSuchPrint(int Order, int Line) : Refusal($"There is no print {Order}/{Line}.");
}

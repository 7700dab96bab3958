using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Orders;

/// <summary>What can be done when an order is promised and its paper does not suffice: cut, another paper, another supplier, tell the client.</summary>
public sealed class FindWaysOut(RoomStore room, FileShelf files, ScreenCopies copies, TimeProvider clock)
{
    /// <summary>Whether some print of an order still to be made wants more of its paper than lies here, in the format it would go on.</summary>
    public async Task<bool> IsShortAsync(int order, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var lines = await LinesAsync(db, order, cancel);
        if (lines.Count == 0)
        {
            return false;
        }

        var all = await StockOut.LoadAsync(db, clock, cancel);
        return lines.Any(l => all.Usual(l, l.Paper) is not var (_, wants, has) || has < wants);
    }

    public async Task<Page?> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var order = await db.Orders.AsNoTracking().SingleOrDefaultAsync(o => o.Number == number, cancel);
        if (order is null)
        {
            return null;
        }

        var client = await db.Clients.AsNoTracking().SingleAsync(c => c.Number == order.Client, cancel);
        var all = await StockOut.LoadAsync(db, clock, cancel);
        var shorts = new List<Wanting>();
        foreach (var line in await LinesAsync(db, number, cancel))
        {
            // A paper that is kept in no format that takes the print is bought in the smallest that does.
            var usual = all.Usual(line, line.Paper);
            var format = usual?.Format ?? Room.Buying.KnownWork.FormatFor(line.FullWidth, line.FullHeight, all.Formats.Values);
            var (wants, has) = usual is var (_, w, h) ? (w, h) : (format is null ? 0 : Room.Buying.KnownWork.Wants(line.FullWidth, line.FullHeight, line.ToPrint, format), 0);
            if (has < wants || format is null)
            {
                var fits = await FitsAsync(db, all, line, cancel);
                shorts.Add(new(
                    line, all.Papers[line.Paper], format, wants, has, Ways(all, line, client.Name, order.Promised, format, wants - has, has, wants, fits),
                    fits.GetValueOrDefault(line.Paper)?.Profile, Unproved(all, line, fits)));
            }
        }

        return new(order, client, shorts, all.Rates?.Currency ?? "", all.Opens, all.Closes);
    }

    private static IReadOnlyList<WayOut> Ways(
        StockOut all, PrintLine line, string client, DateTimeOffset promised, Format? format, long missing, long has, long wants, IReadOnlyDictionary<PaperCode, PaperFit> fits)
    {
        List<WayOut> bought = format is null ? [] : [.. WaysOut.OtherSupplier(all, line, format, missing)];
        List<WayOut> ways =
        [
            .. format is null ? [] : WaysOut.CutDown(all, line, format, missing),
            .. WaysOut.OtherPaper(all, line, fits),
            .. bought,
            WaysOut.TellClient(all, line, client, bought, wants == 0 ? 0 : (int)(line.ToPrint * has / wants)),
        ];
        return WayOut.Ranked(ways, promised);
    }

    // Papers that would suffice, and of which nobody can say what they would make of the picture.
    private static IReadOnlyList<string> Unproved(StockOut all, PrintLine line, IReadOnlyDictionary<PaperCode, PaperFit> fits) =>
        [.. all.Papers.Values.Where(p => p.LineUp is LineUp.In && p.Code != line.Paper && !fits.ContainsKey(p.Code)
            && all.Usual(line, p.Code) is var (_, wants, has) && has >= wants).Select(p => p.Name).Order(StringComparer.Ordinal)];

    // For each paper of the line-up that has a profile to print with: what of the picture it does not hold.
    private async Task<IReadOnlyDictionary<PaperCode, PaperFit>> FitsAsync(RoomDb db, StockOut all, PrintLine line, CancellationToken cancel)
    {
        var copy = await copies.OfAsync(line.ImageHash, cancel);
        var fits = new Dictionary<PaperCode, PaperFit>();
        foreach (var paper in all.Papers.Values.Where(p => p.LineUp is LineUp.In || p.Code == line.Paper))
        {
            if (await PreparePrint.ProfileForAsync(db, paper.Code, cancel) is var (profile, _))
            {
                fits[paper.Code] = new(profile, copy.Granted && files.Has(profile.FileHash) && IccProfile.Read(await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel)).Profile is { } printer
                    ? (await Task.Run(() => ImageStatistics.Misses(copy.Value, printer, line.BlackPointCompensation, cancel), cancel)).Value?.Share : null);
            }
        }

        return fits;
    }

    private static async Task<List<PrintLine>> LinesAsync(RoomDb db, int order, CancellationToken cancel) =>
        [.. (await db.PrintLines.AsNoTracking().Where(l => l.Order == order).OrderBy(l => l.Line).ToListAsync(cancel)).Where(l => l.ToPrint > 0)];

    public sealed record Page(Order Order, Client Client, IReadOnlyList<Wanting> Prints, string Currency, TimeOnly Opens, TimeOnly Closes);

    /// <param name="Format">The format it would go on; none when the room has none that is large enough.</param>
    /// <param name="Wants">Sheets or mm.</param>
    /// <param name="Has">Sheets or mm that may go to a client.</param>
    /// <param name="Profile">What the promised paper would be printed with; none when it has no profile that can be.</param>
    /// <param name="Unproved">Papers of the line-up that lie here and are not proposed, since they have no profile.</param>
    public sealed record Wanting(PrintLine Print, Paper Paper, Format? Format, long Wants, long Has, IReadOnlyList<WayOut> Ways, Profile? Profile, IReadOnlyList<string> Unproved);
}

using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Layout;

/// <summary>Writes down how this room lays prints: knife, days, what is kept, margins of each feed path, papers with a direction.</summary>
public sealed class SetLayoutSettings(RoomStore room)
{
    private static readonly Length Most = Length.FromMillimetres(100_000);
    private static readonly Length MostMargin = Length.FromMillimetres(200);

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var r = request;
        if (r.MixDays is < 0 or > 365 || new[] { r.Gutter, r.LeastRoll, r.LeastOffcut }.Any(l => l < Length.Zero || l > Most)
            || r.Margins.SelectMany(m => (Length[])[m.Margins.Left, m.Margins.Right, m.Margins.Lead, m.Margins.Tail]).Any(l => l < Length.Zero || l > MostMargin))
        {
            return new CannotBe();
        }

        if (await db.LayoutSettings.SingleOrDefaultAsync(cancel) is not { } settings)
        {
            db.LayoutSettings.Add(settings = new());
        }

        (settings.Gutter, settings.MixDays, settings.LeastRoll, settings.LeastOffcut) = (r.Gutter, r.MixDays, r.LeastRoll, r.LeastOffcut);
        foreach (var path in r.Margins)
        {
            if (await db.Printers.FindAsync([path.Printer], cancel) is not { } printer)
            {
                return new NoSuchPrinter(path.Printer);
            }

            if (await db.FeedMargins.FindAsync([path.Printer, path.Feed], cancel) is not { } said)
            {
                if (path.Margins == FeedMargins.Usual(printer, path.Feed))
                {
                    continue;
                }

                db.FeedMargins.Add(said = new() { Printer = path.Printer, Feed = path.Feed });
            }

            (said.Left, said.Right, said.Lead, said.Tail) = (path.Margins.Left, path.Margins.Right, path.Margins.Lead, path.Margins.Tail);
        }

        foreach (var paper in await db.Papers.ToListAsync(cancel))
        {
            paper.OneWay = r.OneWay.Contains(paper.Code);
        }

        return new Done();
    }, cancel);

    public async Task<Page> ShowAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var said = await db.FeedMargins.AsNoTracking().ToListAsync(cancel);
        var printers = await db.Printers.AsNoTracking().Where(p => !p.Gone).OrderBy(p => p.Name).ToListAsync(cancel);
        return new(
            await db.LayoutSettings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new(),
            [
                .. from printer in printers
                   from feed in Enum.GetValues<Feed>()
                   where printer.Feeds(feed)
                   select new NamedPath(printer.Name, new(
                       printer.Code, feed, said.Find(s => s.Printer == printer.Code && s.Feed == feed)?.Margins ?? FeedMargins.Usual(printer, feed))),
            ],
            await db.Papers.AsNoTracking().Where(p => p.LineUp != LineUp.Gone).OrderBy(p => p.Name).Select(p => new OnePaper(p.Code, p.Name, p.OneWay)).ToListAsync(cancel));
    }

    public sealed record Request(
        Length Gutter, int MixDays, Length LeastRoll, Length LeastOffcut, IReadOnlyList<Path> Margins, IReadOnlyList<PaperCode> OneWay);

    /// <summary>What cannot be printed at the edges of paper that a printer is fed one way.</summary>
    public sealed record Path(PrinterCode Printer, Feed Feed, Margins Margins);

    public sealed record Page(LayoutSettings Settings, IReadOnlyList<NamedPath> Paths, IReadOnlyList<OnePaper> Papers);

    public sealed record NamedPath(string Printer, Path Path);

    public sealed record OnePaper(PaperCode Code, string Name, bool OneWay);

    public sealed record Done;

    public sealed record CannotBe() : Refusal("Lengths are 0 or more, a margin at most 200 mm, days 0 to 365. Nothing was changed.");

    public sealed record NoSuchPrinter(PrinterCode Printer) : Refusal($"There is no printer {Printer}. Nothing was changed.");
}

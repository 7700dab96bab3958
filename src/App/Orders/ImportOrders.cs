using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;

namespace Goodsheet.App.Orders;

/// <summary>Takes a list of orders in, line by line: what is wrong is refused with its reason, the rest goes on.</summary>
/// <remarks>The same line again is recognised and brings nothing, so a list that was mended is simply brought in again.</remarks>
public sealed class ImportOrders(RoomStore room, FileShelf files, TimeProvider clock)
{
    private const int InOneStep = 200;

    public async Task<Outcome<Done>> RunAsync(Request request, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        var folder = request.Folder;
        if (folder is null)
        {
            await using var db = room.Open();
            folder = (await db.IntakeSettings.AsNoTracking().SingleOrDefaultAsync(cancel))?.PictureFolder ?? "";
        }

        if (folder.Length == 0 || !Directory.Exists(folder))
        {
            return new NoFolder(folder);
        }

        var list = OrderListCsv.Read(request.Csv, clock.LocalTimeZone);
        if (!list.Granted)
        {
            return list.Refusal;
        }

        var pictures = new PictureFolder(folder, files);
        var said = new List<Line>();
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var step in list.Value.Chunk(InOneStep))
        {
            var wanted = new List<Wanted>();
            foreach (var line in step)
            {
                var why = line.Wrong ?? (seen.TryAdd(line.Asks!.Content, line.Number) ? null : $"says again what line {seen[line.Asks.Content]} says");
                var (picture, no) = why is null ? await pictures.TakeAsync(line.Asks!.Print.ImageName, !request.Look, cancel) : (null, why);
                if (picture is null)
                {
                    said.Add(new(line.Number, What.Refused, no!));
                }
                else
                {
                    wanted.Add(new(line.Number, line.Asks!, picture));
                }
            }

            said.AddRange(await EnterAsync(wanted, request, cancel));
            progress?.Report(Math.Min(1, (double)said.Count / list.Value.Count));
        }

        return new Done([.. said.OrderBy(l => l.Number)], request.Look);
    }

    private async Task<IReadOnlyList<Line>> EnterAsync(List<Wanted> wanted, Request request, CancellationToken cancel)
    {
        var done = await room.ChangeAsync<Entered>(async db =>
        {
            var said = new List<Line>();
            var papers = new Dictionary<PaperCode, PaperFacts?>();
            foreach (var line in wanted)
            {
                var paper = line.Asks.Print.Paper;
                if (!papers.TryGetValue(paper, out var facts))
                {
                    papers[paper] = facts = await PaperFacts.OfAsync(db, paper, clock.Today(), cancel);
                }

                said.Add(facts is null
                    ? new(line.Number, What.Refused, $"the room has no paper “{paper}”")
                    : await EnterAsync(db, line, facts, request, cancel));
            }

            return new Entered(said);
        }, cancel);
        return done.Value!.Lines;
    }

    private async Task<Line> EnterAsync(RoomDb db, Wanted line, PaperFacts facts, Request request, CancellationToken cancel)
    {
        var (asks, command) = (line.Asks, CommandOf(line.Asks.Content));
        if (await db.PrintLines.Where(l => l.Command == command).Select(l => (int?)l.Order).FirstOrDefaultAsync(cancel) is { } before)
        {
            return new(line.Number, What.TakenBefore, $"order {before} has it already");
        }

        if (request.Look)
        {
            return new(line.Number, What.Taken, "");
        }

        var now = clock.GetUtcNow();
        var order = asks.Reference.Length == 0 ? null : await OrderEntry.OpenOrderAsync(db, asks.Client, asks.Reference, cancel);
        order ??= await OrderEntry.AddOrderAsync(db, new(asks.Client, asks.Reference, asks.Promised, ApprovalOf.Nothing, request.By), now, cancel);
        var number = (await db.PrintLines.Where(l => l.Order == order.Number).MaxAsync(l => (int?)l.Line, cancel) ?? 0) + 1;
        var print = OrderEntry.AddLine(db, order, number, asks.Print with { ImageHash = line.Picture.Hash }, line.Picture.Image, command);
        OrderEntry.AddFindings(db, print, line.Picture.Image, facts);
        db.Work.Add(WorkDesk.Wish<LookAtPicture>($"Picture of print {order.Number}/{number}", request.By, now));
        await db.SaveChangesAsync(cancel); // the next line asks for the next number
        return new(line.Number, What.Taken, $"order {order.Number}");
    }

    private static CommandId CommandOf(string content) => new(new Guid(SHA256.HashData(Encoding.UTF8.GetBytes($"order list\n{content}")).AsSpan(0, 16)));

    private sealed record Wanted(int Number, OrderListLine.Order Asks, PictureFolder.Taken Picture);

    private sealed record Entered(IReadOnlyList<Line> Lines);

    /// <param name="Csv">The list.</param>
    /// <param name="Look">Only say what would come of it.</param>
    /// <param name="Folder">Where the pictures lie; null for the folder that the room's settings name.</param>
    public sealed record Request(PersonName By, string Csv, bool Look, string? Folder = null)
    {
        /// <summary>A list is long, and a request is written where it is asked.</summary>
        public override string ToString() => $"list of {Csv.Length} letters";
    }

    public sealed record Done(IReadOnlyList<Line> Lines, bool WasLook)
    {
        public int Taken => Lines.Count(l => l.What is What.Taken);

        public int TakenBefore => Lines.Count(l => l.What is What.TakenBefore);

        public IEnumerable<Line> Refused => Lines.Where(l => l.What is What.Refused);
    }

    public enum What
    {
        Taken,
        TakenBefore,
        Refused,
    }

    public sealed record Line(int Number, What What, string Says);

    public sealed record NoFolder(string Folder) : Refusal(Folder.Length == 0
        ? "The folder that pictures come from is not named yet. Nothing was taken in."
        : $"The folder {Folder} that pictures come from is not there. Nothing was taken in.");
}

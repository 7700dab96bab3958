using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Orders;

/// <summary>Takes a whole order of several prints, once for each command: what a program brings over HTTP.</summary>
public sealed class PutOrder(RoomStore room, FileShelf files, TimeProvider clock)
{
    public const int MostPrints = 200;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Prints.Count is 0 or > MostPrints)
        {
            return new NoPrints();
        }

        if (OrderHead.Wrong(request.Client, request.Reference) is { } nobody)
        {
            return nobody;
        }

        var images = new List<ImageFile>();
        foreach (var (print, at) in request.Prints.Select((p, i) => (p, i + 1)))
        {
            var image = print.Wrong() is null && files.Has(print.ImageHash) ? ImageFile.Probe(files.PathOf(print.ImageHash)) : null;
            if (image?.Value is not { } read)
            {
                return new PrintRefused(at, print.Wrong()?.Message ?? image?.Fault?.Message ?? "Its picture is not here. Send it first.");
            }

            images.Add(read);
        }

        return await room.ChangeAsync<Done>(async db =>
        {
            var now = clock.GetUtcNow();
            var content = string.Join('\n', request.Prints.Select(p => p.ToString()).Prepend($"{request.Client}|{request.Reference}|{request.Promised:O}|{request.Asks}"));
            var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, now), content, cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (before.Value)
            {
                return new Done(await db.PrintLines.Where(l => l.Command == request.Command).Select(l => l.Order).FirstAsync(cancel), true, []);
            }

            var papers = new Dictionary<PaperCode, PaperFacts>();
            foreach (var paper in request.Prints.Select(p => p.Paper).Distinct())
            {
                if (await PaperFacts.OfAsync(db, paper, clock.Today(), cancel) is not { } facts)
                {
                    return new PutAway.NoSuchPaper(paper);
                }

                papers[paper] = facts;
            }

            var order = await OrderEntry.AddOrderAsync(db, new(request.Client.Trim(), request.Reference.Trim(), request.Promised, request.Asks, request.By), now, cancel);
            var looks = new List<WorkRecord>();
            foreach (var (print, image, number) in request.Prints.Select((p, i) => (p, images[i], i + 1)))
            {
                OrderEntry.AddFindings(db, OrderEntry.AddLine(db, order, number, print, image, request.Command), image, papers[print.Paper]);
                looks.Add(WorkDesk.Wish<LookAtPicture>($"Picture of print {order.Number}/{number}", request.By, now));
            }

            db.Work.AddRange(looks);
            return new Done(order.Number, false, [.. looks.Select(w => w.Id)]);
        }, cancel);
    }

    public sealed record Request(
        CommandId Command, PersonName By, string Client, string Reference, DateTimeOffset Promised, ApprovalOf Asks, IReadOnlyList<PrintWish> Prints);

    /// <param name="Before">It was here already, from an earlier try.</param>
    /// <param name="Looks">The work of looking at its pictures, to be handed over.</param>
    public sealed record Done(int Order, bool Before, IReadOnlyList<Guid> Looks);

    public sealed record NoPrints() : Refusal($"An order has 1 to {MostPrints} prints.");

    public sealed record PrintRefused(int Print, string Why) : Refusal($"Print {Print}: {Why}");
}

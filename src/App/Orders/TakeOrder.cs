using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Takes an order for one picture, and says at once what will go wrong.</summary>
public sealed class TakeOrder(RoomStore room, FileShelf files, TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var print = request.Print;
        if ((print.Wrong() ?? OrderHead.Wrong(request.Client, "")) is { } wrong)
        {
            return wrong;
        }

        if (!files.Has(request.ImageHash))
        {
            return new NoPicture();
        }

        var probe = await Task.Run(() => ImageFile.Probe(files.PathOf(request.ImageHash)), cancel);
        if (probe.Value is not { } image || PictureFolder.Shape(image) is not null)
        {
            return new PictureRefused(request.ImageName, probe.Fault?.Message ?? PictureFolder.Shape(probe.Value!)!);
        }

        return await room.ChangeAsync<Done>(async db =>
        {
            var wish = new Wish(request.Command, request.By, clock.GetUtcNow());
            var before = await db.GrantedBeforeAsync(wish, request.ToString(), cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (before.Value)
            {
                return new Done(await db.PrintLines.Where(l => l.Command == request.Command).Select(l => l.Order).FirstAsync(cancel));
            }

            if (await PaperFacts.OfAsync(db, request.Paper, clock.Today(), cancel) is not { } facts)
            {
                return new PutAway.NoSuchPaper(request.Paper);
            }

            var order = await OrderEntry.AddOrderAsync(db, new(request.Client.Trim(), "", request.Promised, request.Asks, request.By), clock.GetUtcNow(), cancel);
            OrderEntry.AddFindings(db, OrderEntry.AddLine(db, order, 1, print, image, request.Command), image, facts);
            return new Done(order.Number);
        }, cancel);
    }

    public sealed record Request(
        CommandId Command, PersonName By, string Client, DateTimeOffset Promised, string ImageHash, string ImageName, string Title,
        Length Width, Length Height, Length Border, PaperCode Paper, int Copies, Length ViewingDistance,
        EdgeKind Edge = EdgeKind.White, Length Around = default, ApprovalOf Asks = ApprovalOf.Nothing)
    {
        internal PrintWish Print => new(ImageHash, ImageName, Title, Width, Height, Border, Edge, Around, Paper, Copies, ViewingDistance);
    }

    public sealed record Done(int Order);

    public sealed record NoClient() : Refusal("Whose order is it? A name of at most 120 letters.");

    public sealed record NoPicture() : Refusal("The picture is not here any more. Bring it in again.");

    public sealed record PictureRefused(string Name, string Why) : Refusal($"{Name} could not be read. {Why} Nothing was kept.");
}

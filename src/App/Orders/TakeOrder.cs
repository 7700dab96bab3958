using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Takes an order for one picture, and says at once what will go wrong.</summary>
public sealed class TakeOrder(RoomStore room, FileShelf files, TimeProvider clock)
{
    private const int FirstOrder = 2001;
    private const int MostCopies = 1_000;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Copies is < 1 or > MostCopies || request.Width <= Length.Zero || request.Height <= Length.Zero || request.Border < Length.Zero)
        {
            return new CannotBe();
        }

        if (request.Client.Trim().Length is 0 or > 120)
        {
            return new NoClient();
        }

        if (!files.Has(request.ImageHash))
        {
            return new NoPicture();
        }

        var probe = await Task.Run(() => ImageFile.Probe(files.PathOf(request.ImageHash)), cancel);
        if (probe.Value is not { } image)
        {
            return new PictureRefused(request.ImageName, probe.Fault!.Message);
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
                return new Done((await db.Orders.OrderByDescending(o => o.Number).FirstAsync(o => o.TakenBy == request.By, cancel)).Number);
            }

            var paper = await db.Papers.FindAsync([request.Paper], cancel);
            if (paper is null)
            {
                return new PutAway.NoSuchPaper(request.Paper);
            }

            var order = await AddOrderAsync(db, request, cancel);
            AddLine(db, order, request, image);
            await AddFindingsAsync(db, order, request, image, paper, cancel);
            return new Done(order.Number);
        }, cancel);
    }

    private async Task<Order> AddOrderAsync(RoomDb db, Request request, CancellationToken cancel)
    {
        var name = request.Client.Trim();
        var client = await db.Clients.FirstOrDefaultAsync(c => c.Name == name, cancel);
        if (client is null)
        {
            client = new() { Number = (await db.Clients.MaxAsync(c => (int?)c.Number, cancel) ?? 0) + 1, Name = name };
            db.Clients.Add(client);
        }

        var order = new Order
        {
            Number = Math.Max(FirstOrder, (await db.Orders.MaxAsync(o => (int?)o.Number, cancel) ?? 0) + 1),
            Client = client.Number,
            TakenAt = clock.GetUtcNow(),
            TakenBy = request.By,
            Promised = request.Promised,
            State = OrderState.Approved,
        };
        db.Orders.Add(order);
        return order;
    }

    private static void AddLine(RoomDb db, Order order, Request request, ImageFile image) => db.PrintLines.Add(new()
    {
        Order = order.Number,
        Line = 1,
        Title = request.Title.Trim() is { Length: > 0 } title ? title : Path.GetFileNameWithoutExtension(request.ImageName),
        ImageHash = request.ImageHash,
        ImageName = request.ImageName,
        PixelsWide = image.Width,
        PixelsHigh = image.Height,
        Width = request.Width,
        Height = request.Height,
        Border = request.Border,
        Paper = request.Paper,
        Copies = request.Copies,
        ViewingDistance = request.ViewingDistance,
    });

    private async Task AddFindingsAsync(RoomDb db, Order order, Request request, ImageFile image, Paper paper, CancellationToken cancel)
    {
        var standings = await (
            from profile in db.Profiles
            join condition in db.Conditions on profile.Condition equals condition.Code
            where condition.Paper == paper.Code && profile.Standing != Standing.Retired
            select profile.Standing).ToListAsync(cancel);
        var left = await ShelfLines.Left(db).Where(l => l.Paper == paper.Code).ToListAsync(cancel);
        var today = clock.Today();
        var formats = await db.Formats.ToDictionaryAsync(f => f.Code, cancel);
        var conditions = await (
            from condition in db.Conditions
            join printer in db.Printers on condition.Printer equals printer.Code
            join loaded in db.Loaded on condition.Printer equals loaded.Printer
            where condition.Paper == paper.Code && !printer.Gone
            orderby printer.Name
            select new { printer, loaded, condition.Black }).ToListAsync(cancel);
        var blacks = conditions.Select(c => c.Black is BlackInk.Matte
            ? (c.printer.Name, c.loaded.Black, c.Black, c.printer.MinutesToMatte, c.printer.MlToMatte)
            : (c.printer.Name, c.loaded.Black, c.Black, c.printer.MinutesToPhoto, c.printer.MlToPhoto)).ToList();
        var said = PrintCheck.OfImage(image, request.Width, request.Height, request.ViewingDistance)
            .Concat(PrintCheck.OfPaper(paper, standings, left.Any(l => l.IsForClients(today)), left.Count > 0))
            .Concat(PrintCheck.OfStock(
                request.Copies, request.Width + request.Border + request.Border, request.Height + request.Border + request.Border,
                [.. left.Where(l => l.IsForClients(today)).Select(l => (formats[l.Format], l.OnShelf))]))
            .Concat(PrintCheck.OfBlack(blacks));
        var number = 0;
        foreach (var finding in said)
        {
            db.Findings.Add(new()
            {
                Order = order.Number,
                Line = 1,
                Number = ++number,
                Kind = finding.Kind,
                Severity = finding.Severity,
                Text = finding.Text,
                Help = finding.Help,
            });
        }
    }

    public sealed record Request(
        CommandId Command, PersonName By, string Client, DateTimeOffset Promised, string ImageHash, string ImageName, string Title,
        Length Width, Length Height, Length Border, PaperCode Paper, int Copies, Length ViewingDistance);

    public sealed record Done(int Order);

    public sealed record CannotBe() : Refusal($"A print is wider and higher than nothing, its border is not below 0, and copies are 1 to {MostCopies}. Nothing was kept.");

    public sealed record NoClient() : Refusal("Whose order is it? A name of at most 120 letters.");

    public sealed record NoPicture() : Refusal("The picture is not here any more. Bring it in again.");

    public sealed record PictureRefused(string Name, string Why) : Refusal($"{Name} could not be read. {Why} Nothing was kept.");
}

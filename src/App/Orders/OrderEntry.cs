using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>A print as it is asked for, whichever way the order comes in.</summary>
public sealed record PrintWish(
    string ImageHash, string ImageName, string Title, Length Width, Length Height, Length Border, EdgeKind Edge, Length Around,
    PaperCode Paper, int Copies, Length ViewingDistance)
{
    public const int MostCopies = 1_000;
    private const int LongestTitle = 200;

    private static readonly Length Widest = Length.FromMillimetres(20_000);
    private static readonly Length MostBorder = Length.FromMillimetres(999);
    private static readonly Length MostAround = Length.FromMillimetres(199);

    /// <summary>Why it cannot be; none when it can.</summary>
    public Refusal? Wrong() => this switch
    {
        _ when Copies is < 1 or > MostCopies || Width <= Length.Zero || Height <= Length.Zero || Border < Length.Zero || Around < Length.Zero => new CannotBe(),
        _ when Width >= Widest || Height >= Widest || Border > MostBorder || Around > MostAround => new TooLarge(),
        _ when Edge is EdgeKind.White == Around > Length.Zero || !Enum.IsDefined(Edge) => new NoSuchEdge(),
        _ when Around > Width || Around > Height => new WiderThanThePicture(),
        { Title.Length: > LongestTitle } => new LongTitle(),
        _ => null,
    };

    public sealed record CannotBe() : Refusal($"A print is wider and higher than nothing, its border is not below 0, and copies are 1 to {MostCopies}. Nothing was kept.");

    public sealed record TooLarge() : Refusal("A print is under 20 m wide and high, a border under 1 m, and what goes around it under 200 mm. Nothing was kept.");

    public sealed record NoSuchEdge() : Refusal("A bleed and a wrap have a width above 0, and a white edge has none. Nothing was kept.");

    public sealed record WiderThanThePicture() : Refusal("What goes around the picture is wider than the picture that is mirrored into it. Nothing was kept.");

    public sealed record LongTitle() : Refusal($"A title has at most {LongestTitle} letters. Nothing was kept.");
}

/// <summary>Writes orders and their prints into the book, inside a step of the store.</summary>
internal static class OrderEntry
{
    private const int FirstOrder = 2001;
    public const int LongestClient = 120;
    public const int LongestReference = 60;

    public static async Task<Order> AddOrderAsync(RoomDb db, OrderHead head, DateTimeOffset now, CancellationToken cancel)
    {
        var client = await db.Clients.FirstOrDefaultAsync(c => c.Name == head.Client, cancel);
        if (client is null)
        {
            client = new() { Number = (await db.Clients.MaxAsync(c => (int?)c.Number, cancel) ?? 0) + 1, Name = head.Client };
            db.Clients.Add(client);
        }

        var order = new Order
        {
            Number = Math.Max(FirstOrder, (await db.Orders.MaxAsync(o => (int?)o.Number, cancel) ?? 0) + 1),
            Client = client.Number,
            TakenAt = now,
            TakenBy = head.By,
            Promised = head.Promised,
            Asks = head.Asks,
            Reference = head.Reference,
        };
        order.State = OrderRules.Free(order);
        db.Orders.Add(order);
        return order;
    }

    public static PrintLine AddLine(RoomDb db, Order order, int number, PrintWish wish, ImageFile image, CommandId command)
    {
        var line = new PrintLine
        {
            Order = order.Number,
            Line = number,
            Title = wish.Title.Trim() is { Length: > 0 } title ? title : Path.GetFileNameWithoutExtension(wish.ImageName),
            ImageHash = wish.ImageHash,
            ImageName = wish.ImageName,
            PixelsWide = image.Width,
            PixelsHigh = image.Height,
            Width = wish.Width,
            Height = wish.Height,
            Border = wish.Border,
            Edge = wish.Edge,
            Around = wish.Around,
            Paper = wish.Paper,
            Copies = wish.Copies,
            ViewingDistance = wish.ViewingDistance,
            Command = command,
        };
        db.PrintLines.Add(line);
        return line;
    }

    public static void AddFindings(RoomDb db, PrintLine line, ImageFile image, PaperFacts facts, int after = 0)
    {
        var said = PrintCheck.OfImage(image, line.Width, line.Height, line.ViewingDistance)
            .Concat(PrintCheck.OfPaper(facts.Paper, facts.Standings, facts.ForClients.Count > 0, facts.AnyLeft))
            .Concat(PrintCheck.OfStock(line.Copies, line.FullWidth, line.FullHeight, facts.ForClients))
            .Concat(PrintCheck.OfBlack(facts.Blacks));
        foreach (var finding in said)
        {
            db.Findings.Add(new()
            {
                Order = line.Order,
                Line = line.Line,
                Number = ++after,
                Kind = finding.Kind,
                Severity = finding.Severity,
                Text = finding.Text,
                Help = finding.Help,
            });
        }
    }

    /// <summary>The order of an open client's reference, if there is one.</summary>
    public static Task<Order?> OpenOrderAsync(RoomDb db, string client, string reference, CancellationToken cancel) => (
        from order in db.Orders
        join known in db.Clients on order.Client equals known.Number
        where known.Name == client && order.Reference == reference && order.State != OrderState.Done && order.State != OrderState.Cancelled
        select order).FirstOrDefaultAsync(cancel);
}

/// <summary>Whose order, and when it is promised.</summary>
internal sealed record OrderHead(string Client, string Reference, DateTimeOffset Promised, ApprovalOf Asks, PersonName By)
{
    public static Refusal? Wrong(string client, string reference) => client.Trim().Length is 0 or > OrderEntry.LongestClient
        ? new TakeOrder.NoClient()
        : reference.Length > OrderEntry.LongestReference ? new LongReference() : null;

    public sealed record LongReference() : Refusal($"The client’s own order number has at most {OrderEntry.LongestReference} letters.");
}

/// <summary>What the room has of a paper now: what a print on it is told at once.</summary>
internal sealed record PaperFacts(
    Paper Paper, IReadOnlyList<Standing> Standings, IReadOnlyList<(Format Format, long Left)> ForClients, bool AnyLeft,
    IReadOnlyList<(string Printer, BlackInk In, BlackInk Wants, double Minutes, double Ml)> Blacks)
{
    public static async Task<PaperFacts?> OfAsync(RoomDb db, PaperCode code, DateOnly today, CancellationToken cancel)
    {
        if (await db.Papers.FindAsync([code], cancel) is not { } paper)
        {
            return null;
        }

        var standings = await (
            from profile in db.Profiles
            join condition in db.Conditions on profile.Condition equals condition.Code
            where condition.Paper == code && profile.Standing != Standing.Retired
            select profile.Standing).ToListAsync(cancel);
        var left = await ShelfLines.Left(db).Where(l => l.Paper == code).ToListAsync(cancel);
        var formats = await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel);
        var conditions = await (
            from condition in db.Conditions
            join printer in db.Printers on condition.Printer equals printer.Code
            join loaded in db.Loaded on condition.Printer equals loaded.Printer
            where condition.Paper == code && !printer.Gone
            orderby printer.Name
            select new { printer, loaded, condition.Black }).ToListAsync(cancel);
        return new(
            paper, standings, [.. left.Where(l => l.IsForClients(today)).Select(l => (formats[l.Format], l.OnShelf))], left.Count > 0,
            [.. conditions.Select(c => c.Black is BlackInk.Matte
                ? (c.printer.Name, c.loaded.Black, c.Black, c.printer.MinutesToMatte, c.printer.MlToMatte)
                : (c.printer.Name, c.loaded.Black, c.Black, c.printer.MinutesToPhoto, c.printer.MlToPhoto))]);
    }
}

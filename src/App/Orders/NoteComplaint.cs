using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Orders;

/// <summary>Writes down what was wrong with a print a client got, who pays, and takes an order that makes it again.</summary>
public sealed class NoteComplaint(RoomStore room, FileShelf files, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.What.Trim().Length is 0 or > OrderLog.LongestText || !Enum.IsDefined(request.Pays))
            {
                return new SayWhy("What is wrong with it, and who pays?");
            }

            if (request.Photographs.Count > MostPhotographs)
            {
                return new TooManyPhotographs();
            }

            if (request.Photographs.Any(p => !files.Has(p) || ImageFile.Probe(files.PathOf(p)).Value is null))
            {
                return new NoPhotograph();
            }

            if (await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == request.Order && l.Line == request.Line, cancel) is not { } line
                || await db.Orders.FindAsync([request.Order], cancel) is not { } order)
            {
                return new NoSuchOrder(request.Order);
            }

            if (request.MakeAgain < 0 || request.MakeAgain > line.Copies)
            {
                return new MoreThanMade(line.Copies);
            }

            var now = clock.GetUtcNow();
            var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, now), request.Content, cancel);
            if (!before.Granted)
            {
                return before.Refusal;
            }

            if (before.Value)
            {
                var told = await db.Complaints.Where(c => c.Order == request.Order).OrderByDescending(c => c.Number).FirstAsync(cancel);
                return new Done(told.Number, told.Remake);
            }

            var complaint = new Complaint
            {
                Number = (await db.Complaints.MaxAsync(c => (int?)c.Number, cancel) ?? 0) + 1,
                Order = request.Order,
                Line = request.Line,
                At = now,
                By = request.By,
                What = request.What.Trim(),
                Pays = request.Pays,
                CameBack = request.CameBack,
                Photographs = [.. request.Photographs],
            };
            db.Complaints.Add(complaint);
            if (request.MakeAgain > 0)
            {
                var client = await db.Clients.AsNoTracking().SingleAsync(c => c.Number == order.Client, cancel);
                var again = await OrderEntry.AddOrderAsync(db, new(client.Name, order.Reference, request.Promised, ApprovalOf.Nothing, request.By), now, cancel);
                (again.RemakeOf, again.Note) = (order.Number, complaint.What);
                complaint.Remake = again.Number;
                db.PrintLines.Add(Again(line, again.Number, request));
            }

            await OrderLog.AddAsync(db, order.Number, FactKind.Complaint,
                $"Print {line.Line}: {complaint.What}. {Pays(complaint.Pays)} pays.{(complaint.CameBack ? " It came back." : "")}{(complaint.Remake is { } remake ? $" Made again as order {remake}." : "")}", now, request.By, cancel);
            return new Done(complaint.Number, complaint.Remake);
        }, cancel);

    public static string Pays(WhoPays who) => who switch
    {
        WhoPays.Room => "The room",
        WhoPays.Client => "The client",
        _ => "The supplier",
    };

    // The same picture, size, paper, intent and recipe: the same look, from the file as it was kept.
    private static PrintLine Again(PrintLine line, int order, Request request) => new()
    {
        Order = order,
        Line = 1,
        Title = line.Title,
        ImageHash = line.ImageHash,
        ImageName = line.ImageName,
        PixelsWide = line.PixelsWide,
        PixelsHigh = line.PixelsHigh,
        Width = line.Width,
        Height = line.Height,
        Border = line.Border,
        Edge = line.Edge,
        Around = line.Around,
        Paper = line.Paper,
        Copies = request.MakeAgain,
        Intent = line.Intent,
        BlackPointCompensation = line.BlackPointCompensation,
        ViewingDistance = line.ViewingDistance,
        Command = request.Command,
        Recipe = line.Recipe,
    };

    /// <summary>As many as one complaint takes.</summary>
    public const int MostPhotographs = 8;

    /// <param name="MakeAgain">Copies to be made again; 0 for none.</param>
    /// <param name="Promised">When they are to be ready.</param>
    /// <param name="Shown">Photographs of it that were brought in, by their SHA-256.</param>
    public sealed record Request(
        CommandId Command, PersonName By, int Order, int Line, string What, WhoPays Pays, bool CameBack, int MakeAgain, DateTimeOffset Promised, IReadOnlyList<string>? Shown = null)
    {
        internal IReadOnlyList<string> Photographs => Shown ?? [];

        internal string Content => $"{this} {string.Join(' ', Photographs)}";
    }

    public sealed record Done(int Complaint, int? Remake);

    public sealed record NoPhotograph() : Refusal("A photograph is a TIFF, JPEG or PNG file, brought in whole. One of these is not: nothing was written down. Choose them again.");

    public sealed record TooManyPhotographs() : Refusal($"A complaint takes at most {MostPhotographs} photographs. Nothing was written down.");

    public sealed record MoreThanMade(int Copies) : Refusal($"{Copies} copies were ordered: 0 to {Copies} can be made again.");
}

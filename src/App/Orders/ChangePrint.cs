using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Runs;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Changes a print of an order: size, edge, paper, copies. What the client approved before is to be approved again.</summary>
public sealed class ChangePrint(RoomStore room, FileShelf files, TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        await room.ChangeAsync<Done>(async db =>
        {
            var found = await OrderLog.FindAsync(db, request.Order, cancel);
            if (found.Value is not { } order)
            {
                return found.Refusal!;
            }

            var line = await db.PrintLines.FindAsync([request.Order, request.Line], cancel);
            if (line is null)
            {
                return new NoSuchOrder(request.Order);
            }

            if (order.State is OrderState.Done or OrderState.Cancelled)
            {
                return new AskApproval.IsClosed(order.Number, order.State);
            }

            var wish = new PrintWish(line.ImageHash, line.ImageName, line.Title, request.Width, request.Height, request.Border, request.Edge, request.Around, request.Paper, request.Copies, line.ViewingDistance);
            if (wish.Wrong() is { } wrong)
            {
                return wrong;
            }

            var inRun = await (
                from print in db.RunPrints
                join run in db.Runs on print.Run equals run.Number
                where print.Order == line.Order && print.Line == line.Line && (run.State == RunState.Planned || run.State == RunState.Printing)
                select (int?)run.Number).FirstOrDefaultAsync(cancel);
            if (inRun is { } laid)
            {
                return new IsInARun(laid);
            }

            if (await PaperFacts.OfAsync(db, request.Paper, clock.Today(), cancel) is not { } facts)
            {
                return new PutAway.NoSuchPaper(request.Paper);
            }

            if (request.Copies < line.Good)
            {
                return new FewerThanMade(line.Good);
            }

            var changed = Differences(line, request).ToList();
            if (changed.Count == 0)
            {
                return new Done(false);
            }

            var otherwiseMade = changed.Exists(c => !c.StartsWith(CopiesWord, StringComparison.Ordinal));
            (line.Width, line.Height, line.Border, line.Edge, line.Around, line.Paper, line.Copies) =
                (request.Width, request.Height, request.Border, request.Edge, request.Around, request.Paper, request.Copies);
            if (otherwiseMade)
            {
                (line.PreparedHash, line.Recipe, line.Work) = (null, null, null);
            }

            await RefindAsync(db, line, facts, cancel);
            if (order.Asks is not ApprovalOf.Nothing)
            {
                order.ApprovedAt = null;
            }

            order.State = order.State is OrderState.OnHold ? OrderState.OnHold : OrderRules.Free(order);
            var why = request.Why.Trim() is { Length: > 0 and <= OrderLog.LongestText } said ? $" {said}" : "";
            await OrderLog.AddAsync(db, order.Number, FactKind.Changed, $"Print {line.Line}: {string.Join(", ", changed)}.{why}", clock.GetUtcNow(), request.By, cancel);
            return new Done(order.Asks is not ApprovalOf.Nothing);
        }, cancel);

    private const string CopiesWord = "copies";

    // What was found in the pixels stays: the picture is the same.
    private async Task RefindAsync(Storage.RoomDb db, PrintLine line, PaperFacts facts, CancellationToken cancel)
    {
        var earlier = await db.Findings.Where(f => f.Order == line.Order && f.Line == line.Line).ToListAsync(cancel);
        if (files.Has(line.ImageHash) && ImageFile.Probe(files.PathOf(line.ImageHash)).Value is { } image)
        {
            db.Findings.RemoveRange(earlier.Where(f => !PrintCheck.OfPixelsKinds.Contains(f.Kind)));
            OrderEntry.AddFindings(db, line, image, facts, earlier.Select(f => f.Number).DefaultIfEmpty().Max());
        }
    }

    private static IEnumerable<string> Differences(PrintLine line, Request to)
    {
        if (line.Width != to.Width || line.Height != to.Height)
        {
            yield return $"{Mm(line.Width)} × {Mm(line.Height)} mm becomes {Mm(to.Width)} × {Mm(to.Height)} mm";
        }

        if (line.Border != to.Border)
        {
            yield return $"border {Mm(line.Border)} mm becomes {Mm(to.Border)} mm";
        }

        if (line.Edge != to.Edge || line.Around != to.Around)
        {
            yield return $"{EdgeWords(line.Edge, line.Around)} becomes {EdgeWords(to.Edge, to.Around)}";
        }

        if (line.Paper != to.Paper)
        {
            yield return $"{line.Paper} becomes {to.Paper}";
        }

        if (line.Copies != to.Copies)
        {
            yield return $"{CopiesWord} {line.Copies} become {to.Copies}";
        }
    }

    /// <summary>"white edge", "bleed of 3 mm", "wrap of 40 mm".</summary>
    public static string EdgeWords(EdgeKind edge, Length around) =>
        edge is EdgeKind.White ? Edges.Word(edge) : $"{Edges.Word(edge)} of {Mm(around)} mm";

    private static string Mm(Length length) => length.Millimetres.ToString("0.#", CultureInfo.CurrentCulture);

    public sealed record Request(
        PersonName By, int Order, int Line, Length Width, Length Height, Length Border, EdgeKind Edge, Length Around, PaperCode Paper, int Copies, string Why);

    /// <param name="ToApproveAgain">The client has to be asked again.</param>
    public sealed record Done(bool ToApproveAgain);

    public sealed record IsInARun(int Run) : Refusal($"Run {Run} is laid out with this print. Record or stop it first; nothing was changed.");

    public sealed record FewerThanMade(int Good) : Refusal($"{Good} good prints are made already: copies cannot be fewer.");
}

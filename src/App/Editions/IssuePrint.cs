using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Editions;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Editions;

/// <summary>Gives a print the next number of its series, and signs it into the register. No number is given twice.</summary>
public sealed class IssuePrint(RoomStore room, TimeProvider clock)
{
    private const int LongestInk = 80;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        // All who issue of one edition meet at its row and go on one after the other.
        if (await db.Editions.Where(e => e.Number == request.Edition).ExecuteUpdateAsync(e => e.SetProperty(x => x.Issued, x => x.Issued + 1), cancel) == 0)
        {
            return new NoSuchEdition(request.Edition);
        }

        var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, clock.GetUtcNow()), request.ToString(), cancel);
        if (!before.Granted)
        {
            return before.Refusal;
        }

        var edition = await db.Editions.AsNoTracking().SingleAsync(e => e.Number == request.Edition, cancel);
        if (before.Value)
        {
            var code = RegisterSeal.CodeOf(request.Command);
            return Told(edition, await db.NumberedPrints.AsNoTracking().SingleAsync(p => p.Code == code, cancel));
        }

        if (new[] { request.ImageWidth, request.ImageHeight, request.SheetWidth, request.SheetHeight }.Any(l => l <= Length.Zero)
            || request.Ink.Trim().Length is 0 or > LongestInk
            || await db.Papers.AsNoTracking().SingleOrDefaultAsync(p => p.Code == request.Paper, cancel) is not { } paper)
        {
            return new NotAPrint();
        }

        var counted = edition.SizesTogether ? "" : $"{request.ImageWidth} × {request.ImageHeight}";
        var issued = await db.NumberedPrints.AsNoTracking().Where(p => p.Edition == edition.Number && p.Counted == counted && p.Series == request.Series).ToListAsync(cancel);
        var (number, replacement) = (request.Replaces ?? 0, 0);
        if (request.Replaces is null)
        {
            var next = Numbering.Next(edition, request.Series, issued);
            if (!next.Granted)
            {
                return next.Refusal;
            }

            number = next.Value;
        }
        else if (issued.Where(p => p.Number == number).MaxBy(p => p.Replacement) is { DestroyedAt: not null } destroyed)
        {
            replacement = destroyed.Replacement + 1;
        }
        else
        {
            return new IsNotDestroyed(number);
        }

        var print = new NumberedPrint
        {
            Edition = edition.Number,
            Counted = counted,
            Series = request.Series,
            Number = number,
            Replacement = replacement,
            Code = RegisterSeal.CodeOf(request.Command),
            ImageWidth = request.ImageWidth,
            ImageHeight = request.ImageHeight,
            SheetWidth = request.SheetWidth,
            SheetHeight = request.SheetHeight,
            Paper = paper.Code,
            PaperName = paper.Name,
            Ink = request.Ink.Trim(),
            PrintedOn = request.PrintedOn,
            Run = request.Run,
            At = clock.GetUtcNow(),
            By = request.By,
            Signature = "",
        };
        print.Signature = RegisterSeal.Sign(await RegisterSeal.KeyAsync(db, clock.GetUtcNow(), cancel), CertificateText.Of(edition, print));
        db.NumberedPrints.Add(print);
        return Told(edition, print);
    }, cancel);

    private static Done Told(Edition edition, NumberedPrint print) => new(print.Code, print.Number, Numbering.Words(edition, print.Series, print.Number));

    /// <param name="Replaces">The number of a destroyed print that this one stands in for; none for a new number.</param>
    public sealed record Request(
        CommandId Command, PersonName By, int Edition, Series Series, int? Replaces, Length ImageWidth, Length ImageHeight, Length SheetWidth, Length SheetHeight,
        PaperCode Paper, string Ink, DateOnly PrintedOn, int? Run);

    public sealed record Done(string Code, int Number, string InWords);

    public sealed record NotAPrint() : Refusal($"A print has a picture size, a sheet size, a paper of this room, and an ink (at most {LongestInk} letters). No number was given.");

    public sealed record IsNotDestroyed(int Number) : Refusal($"Number {Number} is not recorded as destroyed, so nothing can stand in for it.");
}

public sealed record NoSuchEdition(int Edition) : Refusal($"There is no edition {Edition} in the register.");

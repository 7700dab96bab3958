using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Printers;

/// <summary>Takes a printer into the room.</summary>
public sealed partial class AddPrinter(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var code = new PrinterCode(NotInCode().Replace(request.Name.Trim().ToLowerInvariant(), "-").Trim('-'));
            if (code.Value.Length is 0 or > 40)
            {
                return new NameDoesNotServe();
            }

            if (await db.Printers.AnyAsync(p => p.Code == code, cancel))
            {
                return new PrinterIsKnown(request.Name);
            }

            if (request.Width <= Length.Zero || request.Ppi is < 72 or > 4_800)
            {
                return new DoesNotPrint();
            }

            db.Printers.Add(new()
            {
                Code = code,
                Name = request.Name.Trim(),
                Inks = request.Inks,
                BlacksShareALine = request.BlacksShareALine && request.Inks is InkKind.Pigment,
                MinutesToMatte = request.MinutesPerBlackChange,
                MinutesToPhoto = request.MinutesPerBlackChange,
                MlToMatte = request.MlPerBlackChange,
                MlToPhoto = request.MlPerBlackChange,
                Width = request.Width,
                FeedPaths = request.Feeds.Aggregate(0, (bits, feed) => bits | (1 << ((int)feed - 1))),
                Ppi = request.Ppi,
                Firmware = request.Firmware,
                Driver = request.Driver,
            });
            db.Loaded.Add(new()
            {
                Printer = code,
                Black = request.Inks is InkKind.Dye ? BlackInk.Dye : BlackInk.Photo,
                Since = clock.GetUtcNow(),
                By = request.By,
            });
            return new Done(code);
        }, cancel);

    [GeneratedRegex("[^a-z0-9]+")]
    private static partial Regex NotInCode();

    public sealed record Request(
        PersonName By, string Name, InkKind Inks, bool BlacksShareALine, double MinutesPerBlackChange, double MlPerBlackChange,
        Length Width, IReadOnlyList<Feed> Feeds, int Ppi, string Firmware, string Driver);

    public sealed record Done(PrinterCode Printer);

    public sealed record NameDoesNotServe() : Refusal("A printer needs a name with letters or figures, at most 40.");

    public sealed record PrinterIsKnown(string Name) : Refusal($"The room already has a printer called {Name}.");

    public sealed record DoesNotPrint() : Refusal("A printer has a width above nothing and between 72 and 4800 pixels per inch.");
}

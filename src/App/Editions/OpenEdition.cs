using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Editions;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Editions;

/// <summary>Opens an edition in the register. What it is limited to cannot be changed afterwards.</summary>
public sealed class OpenEdition(RoomStore room, TimeProvider clock)
{
    private const int Most = 10_000;
    private const int LongestText = 120;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, clock.GetUtcNow()), request.ToString(), cancel);
        if (!before.Granted)
        {
            return before.Refusal;
        }

        var (title, artist) = (request.Title.Trim(), request.Artist.Trim());
        if (title.Length is 0 or > LongestText || artist.Length is 0 or > LongestText || request.Year is < 1800 or > 9999)
        {
            return new NotNamed();
        }

        if (request.Limit is < 1 or > Most || ((int[])[request.ArtistsProofs, request.PrintersProofs, request.HorsCommerce]).Any(n => n is < 0 or > Most))
        {
            return new NotALimit();
        }

        var known = await db.Editions.AsNoTracking().FirstOrDefaultAsync(e => e.Title == title && e.Artist == artist, cancel);
        if (known is not null)
        {
            return before.Value ? new Done(known.Number, known.HasManyProofs) : new IsInTheRegister(title, artist);
        }

        var edition = new Edition
        {
            Number = (await db.Editions.MaxAsync(e => (int?)e.Number, cancel) ?? 0) + 1,
            Title = title,
            Artist = artist,
            Year = request.Year,
            Limit = request.Limit,
            ArtistsProofs = request.ArtistsProofs,
            PrintersProofs = request.PrintersProofs,
            HorsCommerce = request.HorsCommerce,
            SizesTogether = request.SizesTogether,
            At = clock.GetUtcNow(),
            By = request.By,
        };
        db.Editions.Add(edition);
        return new Done(edition.Number, edition.HasManyProofs);
    }, cancel);

    public sealed record Request(
        CommandId Command, PersonName By, string Title, string Artist, int Year, int? Limit, int ArtistsProofs, int PrintersProofs, int HorsCommerce, bool SizesTogether);

    /// <param name="ManyProofs">More artist's proofs than a tenth of the edition, against custom.</param>
    public sealed record Done(int Edition, bool ManyProofs);

    public sealed record NotNamed() : Refusal($"An edition has a title, an artist (at most {LongestText} letters each) and the picture’s year.");

    public sealed record NotALimit() : Refusal($"An edition is of 1 to {Most} prints, or open; proofs are 0 to {Most}.");

    public sealed record IsInTheRegister(string Title, string Artist)
        : Refusal($"{Title} by {Artist} is in the register already. What an edition is limited to cannot be opened a second time.");
}

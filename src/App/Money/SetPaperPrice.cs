using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Money;

/// <summary>Writes down what a square metre of a paper costs the room, or what a client pays for one, from today on.</summary>
public sealed class SetPaperPrice(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        if (request.PerSquareMetre is <= 0 or > 1_000_000 || await db.Papers.FindAsync([request.Paper], cancel) is null
            || (request.Client is { } client && await db.Clients.FindAsync([client], cancel) is null))
        {
            return new CannotBe();
        }

        // A price written twice in a day replaces the first: nobody can have been promised both.
        var today = clock.Today();
        if (request.Client is { } number)
        {
            await db.ClientPrices.Where(p => p.Client == number && p.Paper == request.Paper && p.From == today).ExecuteDeleteAsync(cancel);
            db.ClientPrices.Add(new() { Client = number, Paper = request.Paper, From = today, PerSquareMetre = request.PerSquareMetre });
        }
        else
        {
            await db.PaperPrices.Where(p => p.Paper == request.Paper && p.From == today).ExecuteDeleteAsync(cancel);
            db.PaperPrices.Add(new() { Paper = request.Paper, From = today, PerSquareMetre = request.PerSquareMetre });
        }

        return new Done(request.Paper);
    }, cancel);

    /// <param name="Client">Whose own price it is; none for what the paper costs the room.</param>
    public sealed record Request(PaperCode Paper, int? Client, decimal PerSquareMetre);

    public sealed record Done(PaperCode Paper);

    public sealed record CannotBe() : Refusal("A price is above 0, of a paper the room has, and a client’s own price is of a client it knows.");
}

using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.Editions;

/// <summary>Records that a numbered print was destroyed. It keeps its number and stays in the register.</summary>
public sealed class DestroyPrint(RoomStore room, TimeProvider clock)
{
    private const int LongestWhy = 300;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var print = await db.NumberedPrints.SingleOrDefaultAsync(p => p.Code == request.Code, cancel);
        if (print is null)
        {
            return new NotInTheRegister(request.Code);
        }

        if (request.Why.Trim().Length is 0 or > LongestWhy)
        {
            return new SayWhy();
        }

        if (print.DestroyedAt is null)
        {
            (print.DestroyedAt, print.DestroyedBy, print.DestroyedWhy) = (clock.GetUtcNow(), request.By, request.Why.Trim());
        }

        return new Done(print.Edition, print.Number);
    }, cancel);

    public sealed record Request(PersonName By, string Code, string Why);

    public sealed record Done(int Edition, int Number);

    public sealed record SayWhy() : Refusal($"Say how it was destroyed, in at most {LongestWhy} letters: the register keeps it.");
}

public sealed record NotInTheRegister(string Code) : Refusal($"The register has no print {Code}.");

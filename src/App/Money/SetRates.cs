using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Money;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Money;

/// <summary>Writes down the room's rates from a day on. Earlier ones stay for what was reckoned with them.</summary>
public sealed class SetRates(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var before = await db.GrantedBeforeAsync(new Wish(request.Command, request.By, clock.GetUtcNow()), request.ToString(), cancel);
        if (!before.Granted)
        {
            return before.Refusal;
        }

        var r = request;
        if (r.Currency.Trim().Length is 0 or > 8 || r.Margin is < 0 or >= 1 || r.SpoilRate is < 0 or >= 1
            || ((decimal[])[r.InkPerMl, r.MlPerSquareMetre, r.PurgeShare, r.PrinterPerMinute, r.PersonPerMinute, r.PersonMinutesPerPrint, r.Overhead, r.MinimumCharge, r.RoundUpTo, r.Tax]).Any(a => a is < 0 or > 1_000_000))
        {
            return new CannotBe();
        }

        if (QuantitySteps.Read(r.Steps) is { Granted: false } steps)
        {
            return steps.Refusal;
        }

        var number = await db.Rates.MaxAsync(x => (int?)x.Number, cancel) ?? 0;
        if (before.Value)
        {
            return new Done(number);
        }

        db.Rates.Add(new()
        {
            Number = number + 1,
            From = clock.Today(),
            Currency = r.Currency.Trim(),
            InkPerMl = r.InkPerMl,
            MlPerSquareMetre = r.MlPerSquareMetre,
            PurgeShare = r.PurgeShare,
            PrinterPerMinute = r.PrinterPerMinute,
            PersonPerMinute = r.PersonPerMinute,
            PersonMinutesPerPrint = r.PersonMinutesPerPrint,
            SpoilRate = r.SpoilRate,
            Overhead = r.Overhead,
            Margin = r.Margin,
            MinimumCharge = r.MinimumCharge,
            RoundUpTo = r.RoundUpTo,
            TaxName = r.TaxName.Trim(),
            Tax = r.Tax,
            Steps = r.Steps.Trim(),
        });
        return new Done(number + 1);
    }, cancel);

    public sealed record Request(
        CommandId Command, PersonName By, string Currency, decimal InkPerMl, decimal MlPerSquareMetre, decimal PurgeShare, decimal PrinterPerMinute, decimal PersonPerMinute,
        decimal PersonMinutesPerPrint, decimal SpoilRate, decimal Overhead, decimal Margin, decimal MinimumCharge, decimal RoundUpTo, string TaxName, decimal Tax, string Steps);

    public sealed record Done(int Rates);

    public sealed record CannotBe() : Refusal("Rates are 0 or more, margin and spoilage under 100 %, and a currency is named in at most 8 letters. Nothing was changed.");
}

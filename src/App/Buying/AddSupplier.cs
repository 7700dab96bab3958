using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Buying;

/// <summary>Writes a supplier down, with its clock, its terms and the ways it sends.</summary>
public sealed partial class AddSupplier(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(SupplierTerms terms, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (terms.Wrong() is { } wrong)
            {
                return wrong;
            }

            var code = new SupplierCode(NotInCode().Replace(terms.Name.Trim().ToLowerInvariant(), "-").Trim('-'));
            if (code.Value.Length == 0)
            {
                return new TermsDoNotServe("A supplier needs a name with letters or figures.");
            }

            if (await db.Suppliers.AnyAsync(s => s.Code == code, cancel))
            {
                return new SupplierIsKnown(terms.Name);
            }

            var supplier = new Supplier { Code = code, Name = terms.Name, TimeZone = terms.TimeZone };
            terms.WriteTo(supplier);
            db.Suppliers.Add(supplier);
            db.Dispatches.AddRange(terms.Dispatches(code));
            return new Done(code);
        }, cancel);

    [GeneratedRegex("[^a-z0-9]+")]
    private static partial Regex NotInCode();

    public sealed record Done(SupplierCode Supplier);

    public sealed record SupplierIsKnown(string Name) : Refusal($"The room already has a supplier called {Name}.");
}

using Goodsheet.Room;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Buying;

/// <summary>All that a room writes down about a supplier, as asked for on one form.</summary>
public sealed record SupplierTerms(
    string Name, string TimeZone, WorkingWeek WorkingDays, WorkingWeek DeliveryDays, string? Holidays, decimal MinimumOrder,
    decimal? CarriageFreeFrom, decimal Carriage, string Email, string Note, IReadOnlyList<SupplierTerms.Way> Ways)
{
    public const int LongestName = 60;
    private const int LongestText = 500;
    private const int MostWays = 6;
    private const int MostLeadDays = 60;
    private const decimal MostMoney = 1_000_000;

    /// <summary>What is wrong with them, or nothing.</summary>
    public Refusal? Wrong() => this switch
    {
        _ when Name.Trim().Length is 0 or > LongestName => new TermsDoNotServe($"A supplier needs a name of at most {LongestName} letters."),
        _ when !TimeZoneInfo.TryFindSystemTimeZoneById(TimeZone, out _) =>
            new TermsDoNotServe($"“{TimeZone}” is no time zone. It is written as Europe/London."),
        _ when !WorkingDays.HasADay || !DeliveryDays.HasADay => new TermsDoNotServe("A supplier works and delivers on one day of the week at least."),
        _ when Holidays is { } country && !PublicHolidays.Knows(country) => new TermsDoNotServe($"The holidays of “{country}” are not known. Write its closed days down instead."),
        _ when MinimumOrder is < 0 or > MostMoney || Carriage is < 0 or > MostMoney || CarriageFreeFrom is < 0 or > MostMoney =>
            new TermsDoNotServe($"Sums of money are between 0 and {MostMoney}."),
        _ when Email.Length > LongestText || Note.Length > LongestText => new TermsDoNotServe($"Notes have at most {LongestText} letters."),
        _ when Ways.Count is 0 or > MostWays => new TermsDoNotServe($"A supplier sends in one way at least and {MostWays} at most."),
        _ when Ways.Any(w => w.Name.Trim().Length is 0 or > LongestName) => new TermsDoNotServe("Each way of sending needs a short name, such as next day."),
        _ when Ways.Select(w => w.Name.Trim()).Distinct(StringComparer.OrdinalIgnoreCase).Count() < Ways.Count =>
            new TermsDoNotServe("Two ways of sending have the same name."),
        _ when Ways.Any(w => w.LeadDays is < 0 or > MostLeadDays) => new TermsDoNotServe($"Promised working days are between 0 and {MostLeadDays}."),
        _ => null,
    };

    internal void WriteTo(Supplier supplier)
    {
        (supplier.Name, supplier.TimeZone, supplier.Holidays) = (Name.Trim(), TimeZone, Holidays);
        (supplier.WorkingDays, supplier.DeliveryDays) = (WorkingDays, DeliveryDays);
        (supplier.MinimumOrder, supplier.CarriageFreeFrom, supplier.Carriage) = (MinimumOrder, CarriageFreeFrom, Carriage);
        (supplier.Email, supplier.Note) = (Email.Trim(), Note.Trim());
    }

    internal IEnumerable<Dispatch> Dispatches(SupplierCode code) =>
        Ways.Select(w => new Dispatch { Supplier = code, Name = w.Name.Trim(), CutOff = w.CutOff, LeadDays = w.LeadDays });

    /// <summary>A way of sending: its name, until when by the supplier's clock, and the working days promised.</summary>
    public sealed record Way(string Name, TimeOnly CutOff, int LeadDays);
}

public sealed record TermsDoNotServe(string Why) : Refusal(Why);

public sealed record NoSuchSupplier(SupplierCode Supplier) : Refusal($"The room has no supplier {Supplier}. Add it under Buying first.");

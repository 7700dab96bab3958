using System.Globalization;
using Goodsheet.App.Opening;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Web.Look;

/// <summary>How figures and states are said on every page.</summary>
public static class Words
{
    /// <summary>"25 sheets", "1 sheet", "11.2 m".</summary>
    public static string Quantity(long quantity, bool isRoll) => isRoll
        ? string.Create(CultureInfo.CurrentCulture, $"{quantity / 1000.0:0.###} m")
        : string.Create(CultureInfo.CurrentCulture, $"{quantity} {(quantity == 1 ? "sheet" : "sheets")}");

    /// <summary>With a real minus, and none before a nought.</summary>
    public static string Number(double value, int decimals = 1) =>
        (Math.Round(value, decimals) < 0 ? "−" : "") + Math.Abs(value).ToString($"F{decimals}", CultureInfo.CurrentCulture);

    /// <summary>"5.1 %" of a share from 0 to 1, with a space in every culture; none of none.</summary>
    public static string? Percent(double? share, int decimals = 1) => share is { } of ? $"{Number(100 * of, decimals)} %" : null;

    /// <summary>L* a* b* in a row.</summary>
    public static string Lab(double l, double a, double b) => $"{Number(l)} {Number(a)} {Number(b)}";

    public static string Day(DateOnly day) => day.ToString("d MMMM yyyy", CultureInfo.CurrentCulture);

    public static string Moment(DateTimeOffset at, TimeZoneInfo zone) =>
        TimeZoneInfo.ConvertTime(at, zone).ToString("d MMM HH:mm", CultureInfo.CurrentCulture);

    /// <summary>"18:40" of this day, "27 Nov 09:40" of another.</summary>
    public static string Hour(DateTimeOffset at, DateTimeOffset now, TimeZoneInfo zone) =>
        TimeZoneInfo.ConvertTime(at, zone) is var then && then.Date == TimeZoneInfo.ConvertTime(now, zone).Date ? then.ToString("HH:mm", CultureInfo.CurrentCulture) : Moment(at, zone);

    /// <summary>A code as it stands in an address: "roll 610" has a space.</summary>
    public static string InAddress(FormatCode format) => Uri.EscapeDataString(format.Value);

    public static string Sentence(string words) => words.Length == 0 ? words : char.ToUpper(words[0], CultureInfo.CurrentCulture) + words[1..];

    public static string Of(LineUp lineUp) => lineUp switch
    {
        LineUp.In => "in the line-up",
        LineUp.OnTrial => "on trial",
        LineUp.RunningDown => "running down",
        _ => "gone",
    };

    public static MarkState MarkOf(LineUp lineUp) => lineUp switch
    {
        LineUp.In => MarkState.Good,
        LineUp.OnTrial => MarkState.Wait,
        LineUp.RunningDown => MarkState.Due,
        _ => MarkState.Gone,
    };

    public static MarkState MarkOf(Standing standing) => standing switch
    {
        Standing.Trusted => MarkState.Good,
        Standing.New => MarkState.Wait,
        Standing.Due => MarkState.Due,
        Standing.Drifting => MarkState.Act,
        _ => MarkState.Gone,
    };

    public static string Of(WasteCause cause) => cause switch
    {
        WasteCause.HeadStrike => "head strike",
        WasteCause.WrongSize => "wrong size",
        WasteCause.Dust => "dust or fibre",
        _ => cause.ToString().ToLowerInvariant(),
    };

    public static string Of(ConsumableKind kind) => kind switch
    {
        ConsumableKind.WasteTank => "waste tank",
        _ => kind.ToString().ToLowerInvariant(),
    };

    public static string Of(OpeningKind kind) => kind switch
    {
        OpeningKind.Shelf => "the shelf",
        OpeningKind.Consumables => "ink and consumables",
        _ => kind.ToString().ToLowerInvariant(),
    };

    /// <summary>Where paper is, in words: "shelf", "at Heron", "waste: curl".</summary>
    /// <param name="account">Where it is.</param>
    /// <param name="printers">What the printers are called.</param>
    public static string Of(Account account, IReadOnlyDictionary<PrinterCode, string> printers) => account switch
    {
        { IsPrinter: true } => $"at {printers.GetValueOrDefault(new(account.Name), account.Name)}",
        { IsWaste: true } => $"waste: {(Enum.TryParse<WasteCause>(account.Name, ignoreCase: true, out var cause) ? Of(cause) : account.Name)}",
        _ => account.Text,
    };

    public static string Of(Brightener? brightener) => brightener switch
    {
        null => "not known",
        Brightener.None => "none to speak of",
        _ => brightener.ToString()!.ToLowerInvariant(),
    };
}

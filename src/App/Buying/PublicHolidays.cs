using PublicHoliday;

namespace Goodsheet.App.Buying;

/// <summary>Public holidays by country, as days that a supplier is closed.</summary>
public static class PublicHolidays
{
    private static readonly Dictionary<string, (string Name, Func<IPublicHolidays> Make)> Known = new()
    {
        ["AT"] = ("Austria", () => new AustriaPublicHoliday()),
        ["AU"] = ("Australia", () => new AustraliaPublicHoliday()),
        ["BE"] = ("Belgium", () => new BelgiumPublicHoliday()),
        ["CA"] = ("Canada", () => new CanadaPublicHoliday()),
        ["CH"] = ("Switzerland", () => new SwitzerlandPublicHoliday()),
        ["CZ"] = ("Czechia", () => new CzechRepublicPublicHoliday()),
        ["DE"] = ("Germany", () => new GermanPublicHoliday()),
        ["DK"] = ("Denmark", () => new DenmarkPublicHoliday()),
        ["ES"] = ("Spain", () => new SpainPublicHoliday()),
        ["FI"] = ("Finland", () => new FinlandPublicHoliday()),
        ["FR"] = ("France", () => new FrancePublicHoliday()),
        ["GB"] = ("England and Wales", () => new UKBankHoliday()),
        ["GB-NIR"] = ("Northern Ireland", () => new UKBankHoliday(UKBankHoliday.UkCountries.NorthernIreland)),
        ["GB-SCT"] = ("Scotland", () => new UKBankHoliday(UKBankHoliday.UkCountries.Scotland)),
        ["IE"] = ("Ireland", () => new IrelandPublicHoliday()),
        ["IT"] = ("Italy", () => new ItalyPublicHoliday()),
        ["JP"] = ("Japan", () => new JapanPublicHoliday()),
        ["LU"] = ("Luxembourg", () => new LuxembourgPublicHoliday()),
        ["NL"] = ("Netherlands", () => new DutchPublicHoliday()),
        ["NO"] = ("Norway", () => new NorwayPublicHoliday()),
        ["NZ"] = ("New Zealand", () => new NewZealandPublicHoliday()),
        ["PL"] = ("Poland", () => new PolandPublicHoliday()),
        ["PT"] = ("Portugal", () => new PortugalPublicHoliday()),
        ["SE"] = ("Sweden", () => new SwedenPublicHoliday()),
        ["US"] = ("United States", () => new USAPublicHoliday()),
        ["ZA"] = ("South Africa", () => new SouthAfricaPublicHoliday()),
    };

    /// <summary>Codes as in ISO 3166, with the names people read, by name.</summary>
    public static IReadOnlyList<(string Code, string Name)> Countries { get; } =
        [.. Known.Select(k => (k.Key, k.Value.Name)).OrderBy(c => c.Name, StringComparer.Ordinal)];

    public static bool Knows(string country) => Known.ContainsKey(country);

    /// <summary>The days kept in these years, days kept instead of a weekend included; none for no country.</summary>
    public static IEnumerable<DateOnly> Of(string? country, int firstYear, int lastYear)
    {
        if (country is null || !Known.TryGetValue(country, out var known))
        {
            return [];
        }

        var calendar = known.Make();
        return Enumerable.Range(firstYear, lastYear - firstYear + 1).SelectMany(y => calendar.PublicHolidays(y)).Select(DateOnly.FromDateTime);
    }
}

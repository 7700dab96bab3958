namespace Goodsheet.Web.Look;

/// <summary>The words of the navigation, most used first. Each has a page.</summary>
public static class NavWords
{
    /// <summary>So many stand under the thumb on a phone.</summary>
    public const int Under = 4;

    /// <summary>So many stand in the row at the desk; the rest open under one button.</summary>
    public const int InRow = 8;

    public static IReadOnlyList<(string Href, string Word)> All { get; } =
    [
        ("/", "Today"),
        ("/runs", "Runs"),
        ("/shelf", "Shelf"),
        ("/orders", "Orders"),
        ("/buying", "Buying"),
        ("/plan", "Plan"),
        ("/papers", "Papers"),
        ("/printers", "Printers"),
        ("/profiles", "Profiles"),
        ("/care", "Care"),
        ("/editions", "Editions"),
        ("/money", "Money"),
        ("/people", "People"),
        ("/settings", "Settings"),
    ];
}

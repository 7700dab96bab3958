namespace Goodsheet.Web.Look;

/// <summary>The words of the navigation, in order: the first four stand under the thumb on a phone. Each has a page.</summary>
public static class NavWords
{
    public const int Under = 4;

    public static IReadOnlyList<(string Href, string Word)> All { get; } =
    [
        ("/", "Today"),
        ("/runs", "Runs"),
        ("/shelf", "Shelf"),
        ("/orders", "Orders"),
        ("/papers", "Papers"),
        ("/printers", "Printers"),
        ("/profiles", "Profiles"),
        ("/people", "People"),
    ];
}

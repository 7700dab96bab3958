using System.Text.RegularExpressions;

namespace Goodsheet.App;

/// <summary>A short name made of a name: "Heron, matte black" is "heron-matte-black".</summary>
internal static partial class Slug
{
    public static string Of(string name) => Other().Replace(name.Trim().ToLowerInvariant(), "-").Trim('-');

    [GeneratedRegex("[^a-z0-9]+")]
    private static partial Regex Other();
}

using System.Globalization;
using Goodsheet.Imaging;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Orders;

/// <summary>What a print-ready file was made with, as it is kept with its print line: the same again gives the same file.</summary>
internal static class RecipeText
{
    private const string Begin = "profile ";

    public static string Of(int profile, PrintRecipe recipe) => $"{Begin}{profile}; {recipe}";

    /// <summary>The profile it was made with; none when nothing was made, or it is not known.</summary>
    public static int? ProfileOf(PrintLine line) =>
        line.Recipe is { } recipe && recipe.StartsWith(Begin, StringComparison.Ordinal)
        && int.TryParse(recipe.AsSpan(Begin.Length, Math.Max(0, recipe.IndexOf(';', StringComparison.Ordinal) - Begin.Length)), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number : null;
}

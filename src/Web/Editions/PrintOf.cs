using System.Globalization;

namespace Goodsheet.Web.Editions;

/// <summary>A print of an order in an address, as "2211/1".</summary>
internal static class PrintOf
{
    public static (int Order, int Line)? Read(string? text) =>
        text?.Split('/') is [var order, var line]
        && int.TryParse(order, NumberStyles.None, CultureInfo.InvariantCulture, out var o) && int.TryParse(line, NumberStyles.None, CultureInfo.InvariantCulture, out var l) ? (o, l) : null;
}

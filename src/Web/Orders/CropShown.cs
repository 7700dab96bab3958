using System.Globalization;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Orders;

/// <summary>What a print of the typed size cuts off a picture, in words and in per cent of it.</summary>
/// <param name="Width">The print's; by the picture's shape where only the height is typed; none where neither can be read.</param>
/// <param name="Height">The same of its height.</param>
/// <param name="AtSides">Per cent of the picture's width on each side; 0 where none is to be seen.</param>
/// <param name="AboveAndBelow">Per cent of its height above and below each.</param>
internal sealed record CropShown(Length? Width, Length? Height, double AtSides, double AboveAndBelow, string Says)
{
    public static CropShown Of(PictureShape shape, string? typedWidth, string? typedHeight)
    {
        var (wide, high) = (Typed.Millimetres(typedWidth ?? ""), Typed.Millimetres(typedHeight ?? ""));
        var (width, height) = (
            wide ?? (string.IsNullOrWhiteSpace(typedWidth) && high is { } h ? shape.WidthOf(h) : null),
            high ?? (string.IsNullOrWhiteSpace(typedHeight) && wide is { } w ? shape.HeightOf(w) : null));
        if (width is not { } x || height is not { } y)
        {
            return new(width, height, 0, 0, "");
        }

        var (sides, ends) = (shape.CutAtSides(x, y), shape.CutAboveAndBelow(x, y));
        return sides > PictureShape.Seen ? new(x, y, 100 * sides, 0, $"{Share(sides)} of its width is cut off on the left and on the right, struck through. The whole of it is {Mm(x)} wide and {Mm(shape.HeightOf(x))} high, or {Mm(shape.WidthOf(y))} wide and {Mm(y)} high.")
            : ends > PictureShape.Seen ? new(x, y, 0, 100 * ends, $"{Share(ends)} of its height is cut off above and below, struck through. The whole of it is {Mm(x)} wide and {Mm(shape.HeightOf(x))} high, or {Mm(shape.WidthOf(y))} wide and {Mm(y)} high.")
            : new(x, y, 0, 0, "The whole picture is printed; nothing of it is cut off.");
    }

    private static string Share(double share) => $"{Words.Number(100 * share, share < 0.1 ? 1 : 0)} %";

    private static string Mm(Length length) => string.Create(CultureInfo.CurrentCulture, $"{length.Millimetres:0.#} mm");
}

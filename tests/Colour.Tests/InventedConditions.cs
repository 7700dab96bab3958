using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests;

/// <summary>Printing conditions that exist nowhere, without noise: by the project's own invented printer.</summary>
internal static class InventedConditions
{
    /// <summary>On gloss: a deep black.</summary>
    /// <param name="channels">1 grey, 3 RGB, 4 CMYK.</param>
    public static NeugebauerPrinter Gloss(int channels = 3) => InventedPrinter.On(new() { Surface = 0.003 }, pigment: true, channels);

    /// <summary>On matte: a weak black, and dots that grow more.</summary>
    /// <param name="channels">1 grey, 3 RGB, 4 CMYK.</param>
    public static NeugebauerPrinter Matte(int channels = 3) => InventedPrinter.On(new() { Surface = 0.02, InkTake = 0.95, Gain = 0.16 }, pigment: true, channels);
}

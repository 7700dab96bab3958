using System.Globalization;
using System.Text;

namespace Goodsheet.Cli.Tests;

/// <summary>A chart of an invented RGB printer on an invented matte paper, as an instrument would write it.</summary>
internal static class InventedChart
{
    private const int Levels = 7;

    public static string Text()
    {
        var text = new StringBuilder("CGATS.17\nORIGINATOR \"invented for a test\"\nNUMBER_OF_FIELDS 7\nBEGIN_DATA_FORMAT\nSAMPLE_ID RGB_R RGB_G RGB_B LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\n");
        text.Append(CultureInfo.InvariantCulture, $"NUMBER_OF_SETS {Levels * Levels * Levels}\nBEGIN_DATA\n");
        for (var i = 0; i < Levels * Levels * Levels; i++)
        {
            var (r, g, b) = (Level(i / 49), Level(i / 7 % 7), Level(i % 7));
            var light = (0.30 * r) + (0.55 * g) + (0.15 * b);
            var lab = (L: 18 + (77 * Math.Pow(light, 0.8)), A: 62 * (r - g), B: (48 * (g - b)) + (16 * (r - b)) + 1);
            text.Append(CultureInfo.InvariantCulture, $"{i + 1} {r * 255:0} {g * 255:0} {b * 255:0} {lab.L:0.00} {lab.A:0.00} {lab.B:0.00}\n");
        }

        return text.Append("END_DATA\n").ToString();

        static double Level(int i) => Math.Round(255.0 * i / (Levels - 1)) / 255;
    }
}

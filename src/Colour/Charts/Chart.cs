using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Charts;

/// <summary>A patch of a chart to be printed.</summary>
/// <param name="Place">Its strip by letters and its place in it: B7.</param>
/// <param name="Device">Device values, 0 to 1: whole levels of 255, of CMYK whole percents.</param>
public sealed record ChartPatch(string Place, ImmutableArray<double> Device);

/// <summary>A chart to be printed and measured: patches in the order of reading, over one or more sheets.</summary>
/// <param name="Space">Grey, RGB or CMYK.</param>
/// <param name="Sheet">How every sheet of it is laid out.</param>
/// <param name="Patches">In the order of reading; a sheet is full before the next begins.</param>
/// <param name="Seed">What the order was shuffled by.</param>
public sealed record Chart(DeviceSpace Space, ChartSheet Sheet, ImmutableArray<ChartPatch> Patches, int Seed)
{
    /// <summary>How many sheets it takes.</summary>
    public int Sheets => (Patches.Length + Sheet.Patches - 1) / Sheet.Patches;

    /// <summary>The reference: each patch with its place and device values, in the order of reading, as CGATS.17 text.</summary>
    /// <param name="name">The chart's name; quotes and line breaks are made blanks.</param>
    public string Reference(string name)
    {
        var (fields, top) = Space switch
        {
            DeviceSpace.Grey => ("GRAY_K", 255.0),
            DeviceSpace.Rgb => ("RGB_R\tRGB_G\tRGB_B", 255.0),
            _ => ("CMYK_C\tCMYK_M\tCMYK_Y\tCMYK_K", 100.0),
        };
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"CGATS.17\r\nORIGINATOR\t\"Goodsheet\"\r\nDESCRIPTOR\t\"{new string([.. name.Select(c => c == '"' || char.IsControl(c) ? ' ' : c)])}\"\r\n");
        text.Append(CultureInfo.InvariantCulture, $"NUMBER_OF_FIELDS\t{2 + Patches[0].Device.Length}\r\nBEGIN_DATA_FORMAT\r\nSAMPLE_ID\tSAMPLE_NAME\t{fields}\r\nEND_DATA_FORMAT\r\n");
        text.Append(CultureInfo.InvariantCulture, $"NUMBER_OF_SETS\t{Patches.Length}\r\nBEGIN_DATA\r\n");
        for (var i = 0; i < Patches.Length; i++)
        {
            var values = Patches[i].Device.Select(d => Math.Round(d * top).ToString("0", CultureInfo.InvariantCulture));
            text.Append(CultureInfo.InvariantCulture, $"{i + 1}\t{Patches[i].Place}\t{string.Join('\t', values)}\r\n");
        }

        return text.Append("END_DATA\r\n").ToString();
    }

    /// <summary>A place's name: strips A to Z, then AA, AB; places from 1.</summary>
    internal static string PlaceOf(int strip, int place) =>
        string.Create(CultureInfo.InvariantCulture, $"{(strip >= 26 ? $"{(char)('A' + (strip / 26) - 1)}" : "")}{(char)('A' + (strip % 26))}{place + 1}");
}

using System.Globalization;
using System.Text;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Tests.Measurement;

/// <summary>Small invented charts as text, in the spellings that instruments use.</summary>
public static class Charts
{
    /// <summary>Five RGB patches at 0, 64, 128, 192, 255 with flat spectra of 36 values, one a line.</summary>
    public static string Rgb(
        string first = "CGATS.17", string spectral = "SPECTRAL_NM", double deviceTop = 255, double reflectanceTop = 1, string head = "")
    {
        var text = new StringBuilder($"{first}\nORIGINATOR \"invented\"\n{head}NUMBER_OF_FIELDS 40\nBEGIN_DATA_FORMAT\nSAMPLE_ID RGB_R RGB_G RGB_B");
        for (var nm = 380; nm <= 730; nm += 10)
        {
            text.Append(CultureInfo.InvariantCulture, $" {spectral}{nm}");
        }

        text.Append("\nEND_DATA_FORMAT\nNUMBER_OF_SETS 5\nBEGIN_DATA\n");
        int[] levels = [0, 64, 128, 192, 255];
        for (var i = 0; i < 5; i++)
        {
            var device = Text(levels[i] / 255.0 * deviceTop);
            var r = Text(Reflectance(i) * reflectanceTop);
            text.Append(CultureInfo.InvariantCulture, $"{i + 1} {device} {device} {device} {string.Join(' ', Enumerable.Repeat(r, 36))}\n");
        }

        return text.Append("END_DATA\n").ToString();
    }

    public static double Reflectance(int patch) => 0.02 + (0.22 * patch);

    public static ReadResult Read(string text) => MeasurementFile.Read(Encoding.UTF8.GetBytes(text));

    public static MeasurementSet Set(string text) => Read(text) is { Set: { } set } ? set : throw new InvalidOperationException(Read(text).Fault!.ToString());

    private static string Text(double v) => v.ToString("0.####", CultureInfo.InvariantCulture);
}

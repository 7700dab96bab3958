using System.Text;
using QRCoder;

namespace Goodsheet.App.Documents;

/// <summary>A QR code as modules, so that it is drawn as shapes and is sharp at any size.</summary>
public sealed class QrCode
{
    /// <summary>Modules of quiet zone that a reader needs on each side (ISO/IEC 18004).</summary>
    public const int QuietZone = 4;

    private readonly bool[][] rows;

    private QrCode(bool[][] rows) => this.rows = rows;

    /// <summary>Modules on each side, without the quiet zone.</summary>
    public int Size => rows.Length;

    /// <summary>With level M a code still reads when 15 in 100 of it are dirty or torn (ISO/IEC 18004).</summary>
    public static QrCode Of(string text)
    {
        using var data = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.M);
        var all = data.ModuleMatrix;
        return new([.. Enumerable.Range(QuietZone, all.Count - (2 * QuietZone))
            .Select(y => Enumerable.Range(QuietZone, all.Count - (2 * QuietZone)).Select(x => all[y][x]).ToArray())]);
    }

    public bool IsDark(int x, int y) => rows[y][x];

    /// <summary>Dark modules of a row side by side, as one stretch.</summary>
    public IEnumerable<(int X, int Y, int Length)> Stretches()
    {
        for (var y = 0; y < Size; y++)
        {
            for (var x = 0; x < Size; x++)
            {
                var length = 0;
                while (x + length < Size && rows[y][x + length])
                {
                    length++;
                }

                if (length > 0)
                {
                    yield return (x, y, length);
                    x += length;
                }
            }
        }
    }

    /// <summary>The path of an SVG, one unit a module, stroked one unit wide.</summary>
    public string ToPath() => Stretches()
        .Aggregate(new StringBuilder(), (path, s) => path.Append(System.Globalization.CultureInfo.InvariantCulture, $"M{s.X} {s.Y}.5h{s.Length}")).ToString();
}

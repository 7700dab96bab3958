using System.Buffers.Binary;
using Goodsheet.Imaging;

namespace Goodsheet.App.Tests.Orders;

/// <summary>Small pictures in a folder, good ones and bad ones.</summary>
internal static class Pictures
{
    public static string Good(string folder, string name, int width = 300, int height = 200, double ppi = 300, int channels = 3)
    {
        var path = Path.Combine(folder, name);
        DrawnTiff.Write(path, width, height, channels, ppi, (y, row) => Array.Fill(row, (ushort)(20_000 + (100 * (y % 100)))));
        return path;
    }

    /// <summary>Its head says more than the file holds.</summary>
    public static string CutShort(string folder, string name)
    {
        var path = Good(folder, name);
        using var file = new FileStream(path, FileMode.Open);
        file.SetLength(file.Length / 2);
        return path;
    }

    /// <summary>A TIFF whose height, in its head, is thirty times what its pixels are.</summary>
    public static string Lying(string folder, string name)
    {
        var path = Good(folder, name);
        var bytes = File.ReadAllBytes(path);
        var at = (int)BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(4));
        if (bytes[2] == 42)
        {
            var tags = BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(at));
            for (var tag = 0; tag < tags; tag++)
            {
                var entry = bytes.AsSpan(at + 2 + (12 * tag), 12);
                if (BinaryPrimitives.ReadUInt16LittleEndian(entry) == 257) // ImageLength
                {
                    BinaryPrimitives.WriteUInt32LittleEndian(entry[8..], 6_000);
                    BinaryPrimitives.WriteUInt16LittleEndian(entry[2..], 4);
                }
            }
        }

        File.WriteAllBytes(path, bytes);
        return path;
    }
}

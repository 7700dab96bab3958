using System.Buffers.Binary;
using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Goodsheet.Imaging;

/// <summary>A TIFF whose pixels lie in the file as they are, read straight into place: no compression, no tiles, no turning, no transparency.</summary>
/// <remarks>TIFF 6.0 (1992), baseline, and BigTIFF. Anything that is not quite so is left to libvips, which also knows what is wrong with it.</remarks>
internal sealed class PlainTiff : IDisposable
{
    private const int MostTags = 4_096;
    private const int MostStrips = 1 << 20;

    private readonly SafeFileHandle file;
    private readonly bool swapped;
    private readonly bool wide;
    private readonly int rowsInStrip;
    private readonly long[] strips;

    private PlainTiff(SafeFileHandle file, bool swapped, bool wide, (int Width, int Height, int Channels) size, int rowsInStrip, long[] strips)
    {
        (this.file, this.swapped, this.wide, this.rowsInStrip, this.strips) = (file, swapped, wide, rowsInStrip, strips);
        (Width, Height, Channels) = size;
    }

    public int Width { get; }

    public int Height { get; }

    public int Channels { get; }

    /// <summary>Bits of a channel.</summary>
    public int Depth => wide ? 16 : 8;

    private int RowBytes => Width * Channels * (wide ? 2 : 1);

    /// <summary>Opens a file.</summary>
    /// <returns>None where the file is something else.</returns>
    public static PlainTiff? Open(string path)
    {
        var file = File.OpenHandle(path, options: FileOptions.SequentialScan);
        try
        {
            if (Read(file) is { } opened)
            {
                return opened;
            }
        }
        catch (Exception e) when (e is EndOfStreamException or OverflowException)
        {
            // Not as it should be: for libvips to say what is wrong.
        }

        file.Dispose();
        return null;
    }

    /// <summary>Reads rows, 8 bits made 16.</summary>
    /// <param name="y">The first.</param>
    /// <param name="count">How many, within the picture.</param>
    /// <param name="codes">Filled with them.</param>
    /// <exception cref="IOException">The file has become shorter, or cannot be read.</exception>
    public void Read(int y, int count, Span<ushort> codes)
    {
        var all = codes[..(count * Width * Channels)];
        // Bytes go to the end of their room and are spread over it from its beginning.
        var bytes = MemoryMarshal.AsBytes(all)[^(count * RowBytes)..];
        for (var row = 0; row < count;)
        {
            var (strip, within) = Math.DivRem(y + row, rowsInStrip);
            var together = Math.Min(count - row, rowsInStrip - within);
            ReadAt(file, strips[strip] + ((long)within * RowBytes), bytes.Slice(row * RowBytes, together * RowBytes));
            row += together;
        }

        if (!wide)
        {
            WideBytes.Spread(bytes, all);
        }
        else if (swapped)
        {
            BinaryPrimitives.ReverseEndianness(all, all);
        }
    }

    public void Dispose() => file.Dispose();

    private static PlainTiff? Read(SafeFileHandle file)
    {
        Span<byte> head = stackalloc byte[16];
        ReadAt(file, 0, head);
        var little = head is [(byte)'I', ..];
        var big = (little ? head[2] : head[3]) == 43;
        var fields = new Fields(file, little, big);
        var directory = fields.Number(head[(big ? 8 : 4)..], big ? 8 : 4);
        Span<byte> count = stackalloc byte[8];
        ReadAt(file, directory, count[..(big ? 8 : 2)]);
        var tags = fields.Number(count, big ? 8 : 2);
        if (tags is < 1 or > MostTags)
        {
            return null;
        }

        Dictionary<int, long[]> values = [];
        var entry = new byte[big ? 20 : 12];
        for (var i = 0; i < tags; i++)
        {
            ReadAt(file, directory + (big ? 8 : 2) + ((long)i * entry.Length), entry);
            if (fields.Values(entry) is { } numbers)
            {
                values.TryAdd((int)fields.Number(entry, 2), numbers);
            }
        }

        return Of(file, values, BitConverter.IsLittleEndian != little);
    }

    private static PlainTiff? Of(SafeFileHandle file, Dictionary<int, long[]> tags, bool swapped)
    {
        long One(int tag, long usual) => tags.TryGetValue(tag, out var v) ? v is [var only] ? only : -1 : usual;
        var (width, height, channels) = (One(256, 0), One(257, 0), One(277, 1));
        var bits = tags.GetValueOrDefault(258) is [var first, ..] depths && depths.Length == channels && depths.All(d => d == first) ? first : 0;
        var plain = One(259, 1) == 1 && One(266, 1) == 1 && One(274, 1) == 1 && One(284, 1) == 1 && !tags.ContainsKey(338)
            && (!tags.TryGetValue(339, out var format) || format.All(f => f == 1))
            && (channels, One(262, 0)) is (1, 1) or (3, 2) or (4, 5) && bits is 8 or 16;
        if (!plain || width is < 1 or > ImageFile.MostSide || height is < 1 or > ImageFile.MostSide || width * height > ImageFile.MostPixels)
        {
            return null;
        }

        var rows = Math.Min(One(278, height), height);
        var strips = tags.GetValueOrDefault(273);
        var sizes = tags.GetValueOrDefault(279);
        if (rows < 1 || strips is null || sizes is null || strips.Length != (height + rows - 1) / rows || sizes.Length != strips.Length)
        {
            return null;
        }

        var (length, rowBytes) = (RandomAccess.GetLength(file), width * channels * bits / 8);
        for (var i = 0; i < strips.Length; i++)
        {
            var needed = Math.Min(rows, height - (i * rows)) * rowBytes;
            if (strips[i] < 0 || sizes[i] < needed || strips[i] > length - needed)
            {
                return null;
            }
        }

        return new(file, swapped, bits == 16, ((int)width, (int)height, (int)channels), (int)rows, strips);
    }

    private static void ReadAt(SafeFileHandle file, long at, Span<byte> bytes)
    {
        while (bytes.Length > 0)
        {
            var read = at < 0 ? 0 : RandomAccess.Read(file, bytes, at);
            if (read == 0)
            {
                throw new EndOfStreamException("The picture's file ends before its pixels do.");
            }

            bytes = bytes[read..];
            at += read;
        }
    }

    /// <summary>The whole numbers of a directory's entries.</summary>
    private readonly record struct Fields(SafeFileHandle File, bool Little, bool Big)
    {
        public long Number(ReadOnlySpan<byte> bytes, int length)
        {
            var value = 0UL;
            for (var i = 0; i < length; i++)
            {
                value |= (ulong)bytes[Little ? i : length - 1 - i] << (8 * i);
            }

            return (long)Math.Min(value, long.MaxValue);
        }

        // None for what holds no whole numbers, or very many.
        public long[]? Values(ReadOnlySpan<byte> entry)
        {
            var size = Number(entry[2..], 2) switch { 1 => 1, 3 => 2, 4 => 4, 16 => 8, _ => 0 };
            var (count, room) = (Number(entry[4..], Big ? 8 : 4), Big ? 8 : 4);
            if (size == 0 || count is < 1 or > MostStrips || (size == 1 && count > room))
            {
                return null;
            }

            var bytes = new byte[count * size];
            var value = entry[(Big ? 12 : 8)..];
            if (bytes.Length <= room)
            {
                value[..bytes.Length].CopyTo(bytes);
            }
            else
            {
                ReadAt(File, Number(value, room), bytes);
            }

            var numbers = new long[count];
            for (var i = 0; i < numbers.Length; i++)
            {
                numbers[i] = Number(bytes.AsSpan(i * size), size);
            }

            return numbers;
        }
    }
}

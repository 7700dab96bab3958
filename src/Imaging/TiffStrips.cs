using System.Buffers;
using System.Buffers.Binary;
using System.Runtime.InteropServices;

namespace Goodsheet.Imaging;

/// <summary>Writes a TIFF of 16 bits a channel, or 8, row by row: nothing but the row at hand is in memory.</summary>
/// <remarks>TIFF 6.0 (1992), baseline and ICC profile tag 34675; BigTIFF where 4 GB would not do. See docs/decisions/0050.</remarks>
internal sealed class TiffStrips : IDisposable
{
    private const int RowsInStrip = 64;
    private const int HeadBytes = 16;
    private const ushort Byte = 1;
    private const ushort Short = 3;
    private const ushort Long = 4;
    private const ushort Rational = 5;
    private const ushort Undefined = 7;
    private const ushort Ascii = 2;
    private const ushort Long8 = 16;

    private const int FlushEvery = 1 << 27; // bytes

    private readonly Lock turn = new();
    private readonly FileStream file;
    private readonly int width;
    private readonly int height;
    private readonly int channels;
    private readonly bool big;
    private readonly bool eightBits;
    private long written;
    private Task flushing = Task.CompletedTask;

    /// <param name="eightBits">8 bits a channel, dithered; rows are given as 16 all the same, each by <see cref="WriteAt"/>.</param>
    public TiffStrips(string path, int width, int height, int channels, bool eightBits = false)
    {
        (this.width, this.height, this.channels) = (width, height, channels);
        this.eightBits = eightBits;
        var bytes = height * RowBytes;
        big = bytes > 4_000_000_000;
        // All of its room is asked for at once: a disk that has not so much says so now, and the system finds room once and not for each row.
        file = new(path, new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.Write,
            Share = FileShare.None,
            BufferSize = 1 << 20,
            PreallocationSize = HeadBytes + bytes,
        });
        // The head is filled in at the end; the pixels follow it.
        file.Write(stackalloc byte[HeadBytes]);
    }

    private long RowBytes => (long)width * channels * (eightBits ? 1 : 2);

    /// <summary>Whole rows, from the top; the channels of a pixel side by side.</summary>
    public void Write(ReadOnlySpan<ushort> rows) => file.Write(MemoryMarshal.AsBytes(rows));

    /// <summary>Rows in their places, in any order and from any thread.</summary>
    /// <param name="y">The first.</param>
    /// <param name="rows">One or more, one below the other.</param>
    public void WriteAt(int y, ReadOnlySpan<ushort> rows)
    {
        var at = HeadBytes + (y * RowBytes);
        if (!eightBits)
        {
            WriteBytes(at, MemoryMarshal.AsBytes(rows));
            return;
        }

        var dithered = ArrayPool<byte>.Shared.Rent(rows.Length);
        for (var row = 0; row < rows.Length / (width * channels); row++)
        {
            DitheredRow.Make(rows.Slice(row * width * channels, width * channels), y + row, dithered.AsSpan(row * width * channels));
        }

        WriteBytes(at, dithered.AsSpan(0, rows.Length));
        ArrayPool<byte>.Shared.Return(dithered);
    }

    /// <summary>Writes the directory and makes the file safe on disk.</summary>
    /// <param name="ppi">Pixels per inch.</param>
    /// <param name="profile">The ICC profile of the pixels; none for numbers that are for the printer itself.</param>
    /// <param name="notes">What travels with the picture.</param>
    public void Finish(double ppi, byte[]? profile, PictureNotes? notes = null)
    {
        var tags = Tags(ppi, profile, notes ?? PictureNotes.None);
        var directory = HeadBytes + (height * RowBytes);
        directory += directory & 1; // a directory begins on a word (TIFF 6.0, section 2)
        var values = new List<(long At, byte[] Bytes)>();
        file.Position = directory;
        var entry = big ? 20 : 12;
        var size = (big ? 8 : 2) + (tags.Count * entry) + (big ? 8 : 4);
        var buffer = new byte[size];
        var free = directory + size;
        if (big)
        {
            BinaryPrimitives.WriteUInt64LittleEndian(buffer, (ulong)tags.Count);
        }
        else
        {
            BinaryPrimitives.WriteUInt16LittleEndian(buffer, (ushort)tags.Count);
        }

        for (var i = 0; i < tags.Count; i++)
        {
            var (tag, type, count, bytes) = tags[i];
            var at = buffer.AsSpan((big ? 8 : 2) + (i * entry), entry);
            BinaryPrimitives.WriteUInt16LittleEndian(at, tag);
            BinaryPrimitives.WriteUInt16LittleEndian(at[2..], type);
            var value = at[(big ? 12 : 8)..];
            if (big)
            {
                BinaryPrimitives.WriteUInt64LittleEndian(at[4..], (ulong)count);
            }
            else
            {
                BinaryPrimitives.WriteUInt32LittleEndian(at[4..], (uint)count);
            }

            if (bytes.Length <= value.Length)
            {
                bytes.CopyTo(value);
            }
            else
            {
                if (big)
                {
                    BinaryPrimitives.WriteInt64LittleEndian(value, free);
                }
                else
                {
                    BinaryPrimitives.WriteUInt32LittleEndian(value, (uint)free);
                }

                values.Add((free, bytes));
                free += bytes.Length + (bytes.Length & 1);
            }
        }

        file.Write(buffer);
        foreach (var (at, bytes) in values)
        {
            file.Position = at;
            file.Write(bytes);
        }

        file.Position = 0;
        file.Write(Head(directory));
        flushing.GetAwaiter().GetResult();
        file.Flush(flushToDisk: true);
    }

    public void Dispose()
    {
        Task.WhenAny(flushing).Wait(); // what it throws, it has thrown or nobody needs to know any more
        file.Dispose();
    }

    // One after the other: the system lets only one write into a file, and those that wait for it use up a core. The disk begins
    // while rows still come, else the end waits for all of it.
    private void WriteBytes(long at, ReadOnlySpan<byte> bytes)
    {
        lock (turn)
        {
            RandomAccess.Write(file.SafeFileHandle, bytes, at);
            written += bytes.Length;
            if (written >= FlushEvery && flushing.IsCompleted)
            {
                flushing.GetAwaiter().GetResult();
                (written, flushing) = (0, Task.Run(() => RandomAccess.FlushToDisk(file.SafeFileHandle)));
            }
        }
    }

    private byte[] Head(long directory)
    {
        var head = new byte[HeadBytes];
        (head[0], head[1]) = ((byte)'I', (byte)'I');
        if (big)
        {
            (head[2], head[4]) = (43, 8);
            BinaryPrimitives.WriteInt64LittleEndian(head.AsSpan(8), directory);
        }
        else
        {
            head[2] = 42;
            BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(4), (uint)directory);
        }

        return head;
    }

    private List<(ushort Tag, ushort Type, long Count, byte[] Bytes)> Tags(double ppi, byte[]? profile, PictureNotes notes)
    {
        var strips = (height + RowsInStrip - 1) / RowsInStrip;
        var row = RowBytes;
        var offsets = new byte[strips * 8];
        var counts = new byte[strips * 8];
        var step = big ? 8 : 4;
        for (var i = 0; i < strips; i++)
        {
            var rows = Math.Min(RowsInStrip, height - (i * RowsInStrip));
            Number(offsets, i, HeadBytes + (i * RowsInStrip * row));
            Number(counts, i, rows * row);
        }

        List<(ushort, ushort, long, byte[])> tags =
        [
            (256, Long, 1, U32(width)),
            (257, Long, 1, U32(height)),
            (258, Short, channels, [.. Enumerable.Repeat((byte[])[(byte)(eightBits ? 8 : 16), 0], channels).SelectMany(b => b)]),
            (259, Short, 1, [1, 0]),
            (262, Short, 1, [(byte)(channels switch { 1 => 1, 3 => 2, _ => 5 }), 0]),
            (273, big ? Long8 : Long, strips, offsets[..(strips * step)]),
            (277, Short, 1, [(byte)channels, 0]),
            (278, Long, 1, U32(RowsInStrip)),
            (279, big ? Long8 : Long, strips, counts[..(strips * step)]),
            (282, Rational, 1, [.. U32((int)Math.Round(ppi * 1000)), .. U32(1000)]),
            (283, Rational, 1, [.. U32((int)Math.Round(ppi * 1000)), .. U32(1000)]),
            (284, Short, 1, [1, 0]),
            (296, Short, 1, [2, 0]),
            (305, Ascii, 10, [.. "Goodsheet\0"u8]),
        ];
        if (channels == 4)
        {
            tags.Add((332, Short, 1, [1, 0])); // the inks are CMYK
        }

        Text(270, notes.Description);
        Text(315, notes.Artist);
        Text(33432, notes.Copyright);
        if (notes.Xmp is { } xmp)
        {
            tags.Add((700, Byte, xmp.Length, xmp));
        }

        if (notes.Iptc is { } iptc)
        {
            tags.Add((33723, Undefined, iptc.Length, iptc));
        }

        if (profile is not null)
        {
            tags.Add((34675, Undefined, profile.Length, profile));
        }

        return [.. tags.OrderBy(t => t.Item1)];

        void Text(ushort tag, string? text)
        {
            if (text is { Length: > 0 })
            {
                byte[] bytes = [.. System.Text.Encoding.UTF8.GetBytes(text), 0];
                tags.Add((tag, Ascii, bytes.Length, bytes));
            }
        }

        void Number(byte[] to, int i, long value)
        {
            if (big)
            {
                BinaryPrimitives.WriteInt64LittleEndian(to.AsSpan(8 * i), value);
            }
            else
            {
                BinaryPrimitives.WriteUInt32LittleEndian(to.AsSpan(4 * i), (uint)value);
            }
        }

        static byte[] U32(int value)
        {
            var bytes = new byte[4];
            BinaryPrimitives.WriteInt32LittleEndian(bytes, value);
            return bytes;
        }
    }
}

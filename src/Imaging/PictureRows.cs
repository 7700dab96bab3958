using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;
using System.Runtime.InteropServices;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>The rows of a picture from top to bottom: upright, on white where it is transparent, 16 bits a channel.</summary>
/// <remarks>
/// Where the pixels lie in the file as they are, they are read from there (<see cref="PlainTiff"/>). Else one thread decodes ahead,
/// a few rows at a time. libvips keeps buffers for every thread that asks it for pixels and for every step of its pipeline, as wide
/// as the picture: one thread, few steps and few rows keep a picture of any size in little memory. See docs/decisions/0080, 0410.
/// </remarks>
internal sealed class PictureRows : IDisposable
{
    private const int BytesTogether = 1 << 20;
    private const int BlocksAhead = 2;

    // What libvips hands over is a new array each time. Large ones the collector takes from the system and gives back, which took
    // five times as long as decoding.
    private const int PieceBytes = 64_000;

    private readonly Image upright;
    private readonly PlainTiff? plain;
    private readonly int pixelBytes;
    private readonly BlockingCollection<Block> decoded = new(BlocksAhead);
    private readonly ConcurrentBag<byte[]> free = [];
    private readonly CancellationTokenSource stop = new();
    private readonly Thread? decoder;
    private ExceptionDispatchInfo? fault;
    private Block current;
    private int next;

    // Every operation is made once and used once: libvips need not remember it, nor the picture it belongs to.
    static PictureRows() => Cache.Max = 0;

    private PictureRows(Image upright, PlainTiff? plain)
    {
        (this.upright, this.plain) = (upright, plain);
        pixelBytes = upright.Bands * (IsWide ? 2 : 1);
        if (plain is null)
        {
            decoder = new(Decode) { IsBackground = true, Name = "picture decoder" };
            decoder.Start();
        }
    }

    public int Width => upright.Width;

    public int Height => upright.Height;

    public int Channels => upright.Bands;

    private bool IsWide => upright.Format == Enums.BandFormat.Ushort;

    private int RowBytes => Width * pixelBytes;

    /// <exception cref="VipsException">The file is no picture.</exception>
    public static PictureRows Open(string path) => Open(path, turned: false);

    /// <summary>The same, and turned by a quarter clockwise if asked.</summary>
    public static PictureRows Open(string path, bool turned)
    {
        var upright = turned ? PictureSource.Turned(path) : PictureSource.Upright(path);
        var plain = turned ? null : PlainTiff.Open(path);
        // What the picture is, libvips says.
        if (plain is not null && ((plain.Width, plain.Height, plain.Channels) != (upright.Width, upright.Height, upright.Bands)
            || upright.Format != (plain.Depth == 16 ? Enums.BandFormat.Ushort : Enums.BandFormat.Uchar)))
        {
            plain.Dispose();
            plain = null;
        }

        return new(upright, plain);
    }

    /// <summary>The next rows, the channels of a pixel side by side.</summary>
    /// <param name="count">How many, within the picture.</param>
    /// <param name="codes">Filled with them.</param>
    /// <exception cref="VipsException">The file is damaged here.</exception>
    public void Read(int count, Span<ushort> codes)
    {
        if (next + count > Height)
        {
            throw new InvalidOperationException("More rows were asked for than the picture has.");
        }

        if (plain is not null)
        {
            try
            {
                plain.Read(next, count, codes);
            }
            catch (IOException e)
            {
                throw new VipsException(e.Message, e); // as when libvips reads it
            }
        }

        for (var row = 0; row < count && plain is null; row++)
        {
            var within = (next + row - current.First) * RowBytes;
            if (current.Bytes is null || within >= current.Rows * RowBytes)
            {
                (current, within) = (Next(), 0);
            }

            var bytes = current.Bytes.AsSpan(within, RowBytes);
            var into = codes.Slice(row * Width * Channels, Width * Channels);
            if (IsWide)
            {
                MemoryMarshal.Cast<byte, ushort>(bytes).CopyTo(into);
            }
            else
            {
                WideBytes.Spread(bytes, into);
            }
        }

        next += count;
    }

    /// <summary>Stops the decoder and waits for it: what it reads from must outlive it.</summary>
    public void Dispose()
    {
        stop.Cancel();
        decoder?.Join();
        plain?.Dispose();
        upright.Dispose();
        decoded.Dispose();
        stop.Dispose();
    }

    private Block Next()
    {
        if (current.Bytes is { } used)
        {
            free.Add(used);
        }

        if (decoded.TryTake(out var block, Timeout.Infinite))
        {
            return block;
        }

        fault?.Throw();
        throw new InvalidOperationException("The decoder ended before the picture did.");
    }

    private void Decode()
    {
        try
        {
            using var region = Region.New(upright);
            var together = Math.Max(1, BytesTogether / RowBytes);
            for (var y = 0; y < upright.Height; y += together)
            {
                var rows = Math.Min(together, upright.Height - y);
                var bytes = free.TryTake(out var used) ? used : new byte[together * RowBytes];
                Fetch(region, y, rows, bytes);
                decoded.Add(new(y, rows, bytes), stop.Token);
            }
        }
        catch (OperationCanceledException)
        {
            // Nobody waits for more.
        }
        catch (Exception e) when (e is VipsException or OutOfMemoryException)
        {
            fault = ExceptionDispatchInfo.Capture(e);
        }
        finally
        {
            decoded.CompleteAdding();
        }
    }

    private void Fetch(Region region, int y, int rows, byte[] into)
    {
        var wide = Math.Clamp(PieceBytes / pixelBytes, 1, Width);
        var high = Math.Clamp(PieceBytes / (wide * pixelBytes), 1, rows);
        for (var top = 0; top < rows; top += high)
        {
            stop.Token.ThrowIfCancellationRequested();
            var count = Math.Min(high, rows - top);
            for (var left = 0; left < Width; left += wide)
            {
                var bytes = Math.Min(wide, Width - left) * pixelBytes;
                var piece = region.Fetch(left, y + top, bytes / pixelBytes, count);
                for (var row = 0; row < count; row++)
                {
                    piece.AsSpan(row * bytes, bytes).CopyTo(into.AsSpan(((top + row) * RowBytes) + (left * pixelBytes)));
                }
            }
        }
    }

    private readonly record struct Block(int First, int Rows, byte[] Bytes);
}

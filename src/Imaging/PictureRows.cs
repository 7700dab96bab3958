using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;
using System.Runtime.InteropServices;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>The rows of a picture from top to bottom: upright, on white where it is transparent, 16 bits a channel.</summary>
/// <remarks>
/// One thread of its own decodes ahead, a few rows at a time. libvips keeps buffers for every thread that asks it for
/// pixels and for every step of its pipeline, as wide as the picture: one thread, few steps and few rows keep a
/// picture of any size in little memory. See docs/decisions/0080.
/// </remarks>
internal sealed class PictureRows : IDisposable
{
    private const int BytesTogether = 1 << 20;
    private const int BlocksAhead = 2;

    private readonly Image upright;
    private readonly int rowBytes;
    private readonly BlockingCollection<byte[]> decoded = new(BlocksAhead);
    private readonly CancellationTokenSource stop = new();
    private readonly Thread decoder;
    private ExceptionDispatchInfo? fault;
    private ReadOnlyMemory<byte> rest;

    // Every operation is made once and used once: libvips need not remember it, nor the picture it belongs to.
    static PictureRows() => Cache.Max = 0;

    private PictureRows(Image upright)
    {
        this.upright = upright;
        rowBytes = upright.Width * upright.Bands * (IsWide ? 2 : 1);
        decoder = new(Decode) { IsBackground = true, Name = "picture decoder" };
        decoder.Start();
    }

    public int Width => upright.Width;

    public int Height => upright.Height;

    public int Channels => upright.Bands;

    private bool IsWide => upright.Format == Enums.BandFormat.Ushort;

    /// <exception cref="VipsException">The file is no picture.</exception>
    public static PictureRows Open(string path) => new(PictureSource.Upright(path));

    /// <summary>The same, and turned by a quarter clockwise if asked.</summary>
    public static PictureRows Open(string path, bool turned) => new(turned ? PictureSource.Turned(path) : PictureSource.Upright(path));

    /// <summary>The next rows, the channels of a pixel side by side.</summary>
    /// <param name="count">How many, within the picture.</param>
    /// <param name="codes">Filled with them.</param>
    /// <exception cref="VipsException">The file is damaged here.</exception>
    public void Read(int count, Span<ushort> codes)
    {
        for (var row = 0; row < count; row++)
        {
            if (rest.IsEmpty)
            {
                rest = Next();
            }

            var bytes = rest.Span[..rowBytes];
            var into = codes.Slice(row * Width * Channels, Width * Channels);
            if (IsWide)
            {
                MemoryMarshal.Cast<byte, ushort>(bytes).CopyTo(into);
            }
            else
            {
                for (var i = 0; i < into.Length; i++)
                {
                    into[i] = (ushort)(bytes[i] * 257); // 255 becomes 65535
                }
            }

            rest = rest[rowBytes..];
        }
    }

    /// <summary>Stops the decoder and waits for it: what it reads from must outlive it.</summary>
    public void Dispose()
    {
        stop.Cancel();
        decoder.Join();
        upright.Dispose();
        decoded.Dispose();
        stop.Dispose();
    }

    private byte[] Next()
    {
        if (decoded.TryTake(out var block, Timeout.Infinite))
        {
            return block;
        }

        fault?.Throw();
        throw new InvalidOperationException("More rows were asked for than the picture has.");
    }

    private void Decode()
    {
        try
        {
            using var region = Region.New(upright);
            var together = Math.Max(1, BytesTogether / rowBytes);
            for (var y = 0; y < upright.Height; y += together)
            {
                stop.Token.ThrowIfCancellationRequested();
                decoded.Add(region.Fetch(0, y, upright.Width, Math.Min(together, upright.Height - y)), stop.Token);
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
}

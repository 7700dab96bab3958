using System.Buffers;

namespace Goodsheet.Imaging;

/// <summary>The rows of a picture in another size, mixed in light, row after row on all cores.</summary>
internal sealed class SizedRows
{
    private const int Slack = 2; // weights of nothing are left out, so the first row of the next may lie before this one's

    private readonly PictureRows picture;
    private readonly LightCurve curve;
    private readonly Taps across;
    private readonly Taps down;
    private readonly RowRing ring;
    private readonly ushort[] codes;
    private int read;
    private int next;

    /// <param name="picture">Read from its first row on.</param>
    /// <param name="width">Pixels across; the size is filled and what sticks out cut, evenly on both sides.</param>
    /// <param name="height">Pixels down.</param>
    public SizedRows(PictureRows picture, int width, int height)
    {
        this.picture = picture;
        var same = picture.Width == width && picture.Height == height;
        var scale = Math.Max((double)width / picture.Width, (double)height / picture.Height);
        curve = same || picture.Channels == 4 ? LightCurve.Straight : LightCurve.Light;
        across = Taps.Lanczos(picture.Width, width, scale);
        down = Taps.Lanczos(picture.Height, height, scale);
        // The rows that one new row is made of, and as many again as are read at once.
        var most = Enumerable.Range(0, height).Max(y => down.End(y) - down.First(y));
        ring = new(width, most + RowsTogether + Slack);
        codes = new ushort[RowsTogether * picture.Width * picture.Channels];
    }

    /// <summary>How many rows are worked on at once: enough for all cores, few enough to stay small.</summary>
    public const int RowsTogether = 16;

    public int Width => across.Count;

    public int Channels => picture.Channels;

    /// <summary>The next rows, in codes that are not rounded yet.</summary>
    /// <param name="count">How many, within the picture.</param>
    /// <param name="into">Where each is kept, by its number.</param>
    public void Read(int count, RowRing into)
    {
        var end = next + count;
        while (next < end)
        {
            // As many new rows as the ring has the old rows for.
            var (ready, needed) = (next + 1, down.End(next));
            while (ready < end && Math.Max(needed, down.End(ready)) - down.First(next) <= ring.Capacity - Slack)
            {
                needed = Math.Max(needed, down.End(ready++));
            }

            ReadUpTo(needed);
            Parallel.For(next, ready, y =>
            {
                var row = into[y];
                ring.Mix(down.First(y), down.Weights(y), row);
                curve.ToCodes(row);
            });
            next = ready;
        }
    }

    private void ReadUpTo(int end)
    {
        while (read < end)
        {
            var count = Math.Min(RowsTogether, end - read);
            picture.Read(count, codes);
            Parallel.For(0, count, row =>
            {
                var light = ArrayPool<float>.Shared.Rent(picture.Width * RowRing.Stride);
                light.AsSpan().Clear(); // what another row left in the places of absent channels may be no number
                Lighten(codes.AsSpan(row * picture.Width * picture.Channels, picture.Width * picture.Channels), light);
                RowRing.Mix(light, across, ring[read + row]);
                ArrayPool<float>.Shared.Return(light);
            });
            read += count;
        }
    }

    private void Lighten(ReadOnlySpan<ushort> row, Span<float> light)
    {
        var of = curve.OfCode;
        var channels = picture.Channels;
        for (int i = 0, at = 0; i < row.Length; i += channels, at += RowRing.Stride)
        {
            for (var k = 0; k < channels; k++)
            {
                light[at + k] = of[row[i + k]];
            }
        }
    }
}

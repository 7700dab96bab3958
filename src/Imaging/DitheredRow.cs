namespace Goodsheet.Imaging;

/// <summary>Brings 16 bits to 8 for a driver that takes no more, without steps in soft gradients: what lies between two codes is spread over both, as often as it is near to each.</summary>
/// <remarks>Non-subtractive dither with noise of one code's width, so that the mean is kept exactly. The noise hangs on the place alone: the same picture gives the same file. Codes that are whole in 8 bits, as bare paper and marks are, stay as they are.</remarks>
internal static class DitheredRow
{
    private const int Step = 257; // 65535 / 255

    public static void Make(ReadOnlySpan<ushort> row, int y, Span<byte> into)
    {
        for (var i = 0; i < row.Length; i++)
        {
            var (whole, rest) = Math.DivRem((int)row[i], Step);
            into[i] = (byte)(rest > Threshold(i, y) ? whole + 1 : whole);
        }
    }

    // 0 to 256, each as often: the finalizer of MurmurHash3 over the place.
    private static int Threshold(int i, int y)
    {
        unchecked
        {
            var h = (uint)i * 0x9E3779B1u ^ (uint)y * 0x85EBCA77u;
            h = (h ^ (h >> 16)) * 0x85EBCA6Bu;
            h = (h ^ (h >> 13)) * 0xC2B2AE35u;
            h ^= h >> 16;
            return (int)(((ulong)h * Step) >> 32);
        }
    }
}

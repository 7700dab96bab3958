using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Goodsheet.Imaging;

/// <summary>Codes of 8 bits as codes of 16: 255 becomes 65535.</summary>
internal static class WideBytes
{
    /// <summary>Spreads bytes over codes.</summary>
    /// <param name="bytes">As many as codes. They may lie at the end of the room of the codes themselves.</param>
    /// <param name="codes">Filled with them.</param>
    public static void Spread(ReadOnlySpan<byte> bytes, Span<ushort> codes)
    {
        ref var from = ref MemoryMarshal.GetReference(bytes);
        ref var to = ref MemoryMarshal.GetReference(codes);
        var done = 0;
        for (; done <= bytes.Length - Vector128<byte>.Count; done += Vector128<byte>.Count)
        {
            var (low, high) = Vector128.Widen(Vector128.LoadUnsafe(ref from, (nuint)done));
            (low | (low << 8)).StoreUnsafe(ref to, (nuint)done);
            (high | (high << 8)).StoreUnsafe(ref to, (nuint)(done + Vector128<ushort>.Count));
        }

        for (; done < bytes.Length; done++)
        {
            codes[done] = (ushort)(bytes[done] * 257);
        }
    }
}

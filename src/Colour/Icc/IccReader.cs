using System.Buffers.Binary;

namespace Goodsheet.Colour.Icc;

/// <summary>Reads numbers at offsets of a profile, and faults rather than look past the end.</summary>
/// <param name="file">The whole profile.</param>
/// <param name="start">Where the element starts in it.</param>
/// <param name="length">How long the element is.</param>
internal readonly struct IccReader(ReadOnlyMemory<byte> file, int start, int length)
{
    public int Length => length;

    public byte U8(int at) => Bytes(at, 1)[0];

    public ushort U16(int at) => BinaryPrimitives.ReadUInt16BigEndian(Bytes(at, 2));

    public uint U32(int at) => BinaryPrimitives.ReadUInt32BigEndian(Bytes(at, 4));

    public double S15Fixed16(int at) => BinaryPrimitives.ReadInt32BigEndian(Bytes(at, 4)) / 65536.0;

    public Signature Signature(int at) => new(U32(at));

    public XyzNumber Xyz(int at) => new(S15Fixed16(at), S15Fixed16(at + 4), S15Fixed16(at + 8));

    /// <summary>A count or an offset: refused when above <paramref name="most"/>.</summary>
    public int Count(int at, int most, string what)
    {
        var value = U32(at);
        return value <= most ? (int)value : throw Fault(at, $"There are {value} {what}; at most {most} can be right here.");
    }

    public ReadOnlySpan<byte> Bytes(int at, int count) =>
        at < 0 || count < 0 || at > length - count
            ? throw Fault(Math.Clamp(at, 0, length), $"The element ends after {length} bytes, before what it should hold.")
            : file.Span.Slice(start + at, count);

    /// <summary>The numbers of a table of 16 bits, or of 8 bits widened to 16.</summary>
    public ushort[] Codes(int at, int count, bool wide)
    {
        var bytes = Bytes(at, wide ? checked(2 * count) : count);
        var codes = new ushort[count];
        for (var i = 0; i < count; i++)
        {
            codes[i] = wide ? BinaryPrimitives.ReadUInt16BigEndian(bytes[(2 * i)..]) : (ushort)(bytes[i] * 257);
        }

        return codes;
    }

    public IccReader Element(int at, int size) =>
        at < 0 || size < 0 || at > length - size
            ? throw Fault(Math.Clamp(at, 0, length), $"An element of {size} bytes at {at} does not fit into {length}.")
            : new(file, start + at, size);

    public IccReader From(int at) => Element(at, at <= length ? length - at : 0);

    public IccFaultException Fault(int at, string message) => new(new(start + (long)at, message));
}

/// <summary>Carries a fault from deep in the file to <see cref="IccProfile.Read"/>, and no further.</summary>
#pragma warning disable CA1032, CA1064 // never leaves the library, so it has only the one constructor it needs
internal sealed class IccFaultException(IccFault fault) : Exception(fault.Message)
#pragma warning restore CA1032, CA1064
{
    public IccFault Fault { get; } = fault;
}

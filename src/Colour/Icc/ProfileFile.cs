using System.Buffers.Binary;

namespace Goodsheet.Colour.Icc;

/// <summary>Collects tags and lays them out as a file: header, tag table, data at multiples of four.</summary>
internal sealed class ProfileFile
{
    private readonly List<(Signature Tag, byte[] Data)> tags = [];

    /// <summary>What the header says beside what never changes here.</summary>
    public sealed record Head(IccVersion Version, string Class, ColourSpace Space, ColourSpace Pcs, DateTimeOffset Created)
    {
        public bool Matte { get; init; }

        public RenderingIntent Intent { get; init; }
    }

    public void Add(Signature tag, byte[] data) => tags.Add((tag, data));

    public byte[] ToBytes(Head head)
    {
        var table = IccHeader.Length + 4 + (12 * tags.Count);
        var end = table;
        List<(byte[] Data, int Offset)> placed = [];
        List<(Signature Tag, int Offset, int Size)> rows = [];
        foreach (var (tag, data) in tags)
        {
            // Equal data are written once, and the tags share them.
            var offset = placed.Find(p => p.Data.AsSpan().SequenceEqual(data)) is { Data: not null } found ? found.Offset : end;
            if (offset == end)
            {
                placed.Add((data, offset));
                end += (data.Length + 3) & ~3;
            }

            rows.Add((tag, offset, data.Length));
        }

        var file = new byte[end];
        WriteHead(file, head);
        U32(file, IccHeader.Length, (uint)rows.Count);
        for (var i = 0; i < rows.Count; i++)
        {
            var row = IccHeader.Length + 4 + (12 * i);
            U32(file, row, rows[i].Tag.Value);
            U32(file, row + 4, (uint)rows[i].Offset);
            U32(file, row + 8, (uint)rows[i].Size);
        }

        foreach (var (data, offset) in placed)
        {
            data.CopyTo(file, offset);
        }

        if (head.Version == IccVersion.V4)
        {
            ProfileId.Of(file).CopyTo(file, ProfileId.Offset); // reserved, and so zero, in version 2
        }

        return file;
    }

    private static void WriteHead(byte[] file, Head head)
    {
        U32(file, 0, (uint)file.Length);
        U32(file, 8, head.Version == IccVersion.V4 ? 0x0440_0000u : 0x0240_0000u);
        U32(file, 12, Signature.Of(head.Class).Value);
        U32(file, 16, head.Space.Signature().Value);
        U32(file, 20, head.Pcs.Signature().Value);
        var at = head.Created.UtcDateTime;
        ReadOnlySpan<int> date = [at.Year, at.Month, at.Day, at.Hour, at.Minute, at.Second];
        for (var i = 0; i < date.Length; i++)
        {
            BinaryPrimitives.WriteUInt16BigEndian(file.AsSpan(24 + (2 * i)), (ushort)date[i]);
        }

        U32(file, 36, Signature.Of("acsp").Value);
        U32(file, 60, head.Matte ? 2u : 0u); // the low word of the attributes: reflective, positive, colour
        U32(file, 64, (uint)head.Intent);
        TagBytes.XyzNumber(file.AsSpan(68), XyzNumber.D50);
    }

    private static void U32(byte[] file, int at, uint value) => BinaryPrimitives.WriteUInt32BigEndian(file.AsSpan(at), value);
}

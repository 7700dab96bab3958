using System.Buffers.Binary;
using System.Text;

namespace Goodsheet.App.Printing;

/// <summary>What is asked of a printer, as RFC 8011 numbers it.</summary>
internal enum IppOperation : ushort
{
    PrintJob = 0x0002,
    CancelJob = 0x0008,
    GetJobAttributes = 0x0009,
    GetJobs = 0x000A,
    GetPrinterAttributes = 0x000B,
}

/// <summary>A request or an answer of the Internet Printing Protocol: groups of named values.</summary>
/// <remarks>Encoding: RFC 8010, section 3. Values are kept as the types this room reads; what it does not know is passed over.</remarks>
internal sealed class IppMessage(ushort code, int requestId)
{
    public const byte OperationGroup = 0x01;
    public const byte JobGroup = 0x02;
    public const byte PrinterGroup = 0x04;

    private const byte EndOfAttributes = 0x03;
    private const byte LastDelimiter = 0x0F;
    private const byte Integer = 0x21;
    private const byte Boolean = 0x22;
    private const byte Enumerated = 0x23;
    private const byte BeginCollection = 0x34;
    private const byte TextWithLanguage = 0x35;
    private const byte NameWithLanguage = 0x36;
    private const byte EndCollection = 0x37;
    private const byte OctetString = 0x30;
    private const byte FirstText = 0x41;
    private const byte LastText = 0x49;
    private const int MostValues = 20_000;
    private const int DeepestCollection = 16;

    private readonly List<Group> groups = [];

    /// <summary>The operation of a request, the status of an answer.</summary>
    public ushort Code => code;

    public int RequestId => requestId;

    public IReadOnlyList<Group> Groups => groups;

    public bool IsGranted => Code < 0x0100;

    public Group Begin(byte tag)
    {
        var group = new Group(tag);
        groups.Add(group);
        return group;
    }

    /// <summary>The first group of a kind; an empty one when there is none.</summary>
    public Group FirstOf(byte tag) => groups.FirstOrDefault(g => g.Tag == tag) ?? new(tag);

    public byte[] ToBytes()
    {
        using var bytes = new MemoryStream();
        Span<byte> head = stackalloc byte[8];
        (head[0], head[1]) = (2, 0);
        BinaryPrimitives.WriteUInt16BigEndian(head[2..], Code);
        BinaryPrimitives.WriteInt32BigEndian(head[4..], RequestId);
        bytes.Write(head);
        foreach (var group in groups)
        {
            bytes.WriteByte(group.Tag);
            foreach (var (name, type, values) in group.Attributes)
            {
                for (var i = 0; i < values.Count; i++)
                {
                    bytes.WriteByte(type);
                    WriteSized(bytes, i == 0 ? Encoding.ASCII.GetBytes(name) : []);
                    WriteSized(bytes, Bytes(values[i]));
                }
            }
        }

        bytes.WriteByte(EndOfAttributes);
        return bytes.ToArray();
    }

    /// <summary>Reads an answer.</summary>
    /// <exception cref="InvalidDataException">It is not one; the message says at which byte.</exception>
    public static IppMessage Read(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < 9)
        {
            throw new InvalidDataException("The answer ends before it begins.");
        }

        var message = new IppMessage(BinaryPrimitives.ReadUInt16BigEndian(bytes[2..]), BinaryPrimitives.ReadInt32BigEndian(bytes[4..]));
        var (at, count) = (8, 0);
        Group? group = null;
        while (true)
        {
            var tag = Byte(bytes, ref at);
            if (tag == EndOfAttributes)
            {
                return message;
            }

            if (tag <= LastDelimiter)
            {
                group = message.Begin(tag);
                continue;
            }

            if (++count > MostValues || group is null)
            {
                throw new InvalidDataException($"The answer makes no sense at byte {at}.");
            }

            var name = Encoding.ASCII.GetString(Sized(bytes, ref at));
            var value = Sized(bytes, ref at);
            if (tag == BeginCollection)
            {
                Skip(bytes, ref at, ref count);
                continue; // nothing the room reads is in a collection
            }

            group.Add(name, tag, Value(tag, value, at));
        }
    }

    private static object Value(byte tag, ReadOnlySpan<byte> value, int at) => tag switch
    {
        Integer or Enumerated when value.Length == 4 => BinaryPrimitives.ReadInt32BigEndian(value),
        Boolean when value.Length == 1 => value[0] != 0,
        TextWithLanguage or NameWithLanguage => WithLanguage(value, at),
        OctetString or (>= FirstText and <= LastText) => Encoding.UTF8.GetString(value),
        Integer or Enumerated or Boolean => throw new InvalidDataException($"A number of the answer has the wrong length at byte {at}."),
        _ => value.ToArray(),
    };

    private static string WithLanguage(ReadOnlySpan<byte> value, int at)
    {
        var inner = 0;
        try
        {
            Sized(value, ref inner);
            return Encoding.UTF8.GetString(Sized(value, ref inner));
        }
        catch (InvalidDataException)
        {
            throw new InvalidDataException($"A text of the answer has the wrong length at byte {at}.");
        }
    }

    private static void Skip(ReadOnlySpan<byte> bytes, ref int at, ref int count)
    {
        for (var depth = 1; depth > 0;)
        {
            var tag = Byte(bytes, ref at);
            Sized(bytes, ref at);
            Sized(bytes, ref at);
            depth += tag switch { BeginCollection => 1, EndCollection => -1, _ => 0 };
            if (++count > MostValues || depth > DeepestCollection || tag <= LastDelimiter)
            {
                throw new InvalidDataException($"The answer makes no sense at byte {at}.");
            }
        }
    }

    private static byte Byte(ReadOnlySpan<byte> bytes, ref int at) =>
        at < bytes.Length ? bytes[at++] : throw new InvalidDataException($"The answer ends at byte {at}, in the middle.");

    private static ReadOnlySpan<byte> Sized(ReadOnlySpan<byte> bytes, ref int at)
    {
        if (at + 2 > bytes.Length || at + 2 + BinaryPrimitives.ReadUInt16BigEndian(bytes[at..]) > bytes.Length)
        {
            throw new InvalidDataException($"The answer ends at byte {bytes.Length}, in the middle.");
        }

        var length = BinaryPrimitives.ReadUInt16BigEndian(bytes[at..]);
        var value = bytes.Slice(at + 2, length);
        at += 2 + length;
        return value;
    }

    private static void WriteSized(MemoryStream to, ReadOnlySpan<byte> value)
    {
        Span<byte> length = stackalloc byte[2];
        BinaryPrimitives.WriteUInt16BigEndian(length, checked((ushort)value.Length));
        to.Write(length);
        to.Write(value);
    }

    private static byte[] Bytes(object value)
    {
        switch (value)
        {
            case int number:
                var bytes = new byte[4];
                BinaryPrimitives.WriteInt32BigEndian(bytes, number);
                return bytes;
            case bool yes:
                return [(byte)(yes ? 1 : 0)];
            default:
                return Encoding.UTF8.GetBytes((string)value);
        }
    }

    /// <summary>Attributes under one heading: of the operation, a job, the printer.</summary>
    public sealed class Group(byte tag)
    {
        private readonly List<(string Name, byte Type, List<object> Values)> attributes = [];

        public byte Tag => tag;

        public IReadOnlyList<(string Name, byte Type, List<object> Values)> Attributes => attributes;

        /// <summary>Adds a value; without a name it belongs to the attribute before it.</summary>
        public Group Add(string name, byte type, object value)
        {
            if (name.Length > 0 || attributes.Count == 0)
            {
                attributes.Add((name, type, []));
            }

            attributes[^1].Values.Add(value);
            return this;
        }

        public Group Number(string name, int value) => Add(name, Integer, value);

        public Group Choice(string name, int value) => Add(name, Enumerated, value);

        public Group Charset(string value) => Add("attributes-charset", 0x47, value);

        public Group Language(string value) => Add("attributes-natural-language", 0x48, value);

        public Group Uri(string name, string value) => Add(name, 0x45, value);

        public Group Name(string name, string value) => Add(name, 0x42, value);

        public Group Format(string name, string value) => Add(name, 0x49, value);

        public Group Keyword(string name, params string[] values)
        {
            for (var i = 0; i < values.Length; i++)
            {
                Add(i == 0 ? name : "", 0x44, values[i]);
            }

            return this;
        }

        public IReadOnlyList<string> Texts(string name) => [.. Of(name).OfType<string>()];

        public IReadOnlyList<int> Numbers(string name) => [.. Of(name).OfType<int>()];

        private List<object> Of(string name) => attributes.FirstOrDefault(a => a.Name == name).Values ?? [];
    }
}

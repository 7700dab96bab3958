using System.Buffers.Binary;
using System.Text;

namespace Goodsheet.Colour.Icc;

/// <summary>Makes the data of the smaller tags (ICC.1 clause 10, from memory of the standard).</summary>
internal static class TagBytes
{
    private const int OldScriptLength = 67; // the Macintosh part of textDescriptionType has this length, used or not

    public static byte[] Xyz(XyzNumber value)
    {
        var data = Typed("XYZ ", 20);
        XyzNumber(data.AsSpan(8), value);
        return data;
    }

    public static byte[] Matrix(Matrix3 matrix)
    {
        var data = Typed("sf32", 44);
        for (var i = 0; i < 9; i++)
        {
            S15Fixed16(data.AsSpan(8 + (4 * i)), matrix[i / 3, i % 3]);
        }

        return data;
    }

    public static byte[] Signature(Signature value)
    {
        var data = Typed("sig ", 12);
        U32(data.AsSpan(8), value.Value);
        return data;
    }

    public static byte[] Text(string text)
    {
        if (text.Any(c => c is '\0' or > '\x7e'))
        {
            throw new ArgumentException("This text of a profile holds 7-bit ASCII and nothing else.", nameof(text));
        }

        var data = Typed("text", 8 + text.Length + 1);
        Encoding.ASCII.GetBytes(text, data.AsSpan(8));
        return data;
    }

    public static byte[] OldDescription(string text)
    {
        var ascii = Ascii(text);
        var unicode = ascii == text ? "" : text + '\0';
        var data = Typed("desc", 12 + ascii.Length + 1 + 8 + (2 * unicode.Length) + 3 + OldScriptLength);
        U32(data.AsSpan(8), (uint)ascii.Length + 1);
        Encoding.ASCII.GetBytes(ascii, data.AsSpan(12));
        var at = 12 + ascii.Length + 1;
        U32(data.AsSpan(at + 4), (uint)unicode.Length);
        Encoding.BigEndianUnicode.GetBytes(unicode, data.AsSpan(at + 8));
        return data;
    }

    public static byte[] LocalTexts(IReadOnlyList<LocalText> texts)
    {
        _ = First(texts);
        const int recordLength = 12;
        var at = 16 + (recordLength * texts.Count);
        var data = Typed("mluc", at + texts.Sum(t => 2 * t.Text.Length));
        U32(data.AsSpan(8), (uint)texts.Count);
        U32(data.AsSpan(12), recordLength);
        for (var i = 0; i < texts.Count; i++)
        {
            var record = data.AsSpan(16 + (recordLength * i));
            Code(texts[i].Language, char.IsAsciiLetterLower).CopyTo(record);
            Code(texts[i].Country, char.IsAsciiLetterUpper).CopyTo(record[2..]);
            U32(record[4..], (uint)(2 * texts[i].Text.Length));
            U32(record[8..], (uint)at);
            at += Encoding.BigEndianUnicode.GetBytes(texts[i].Text, data.AsSpan(at));
        }

        return data;
    }

    public static byte[] Curve(ToneCurve curve, IccVersion version) => curve switch
    {
        { IsIdentity: true } => Typed("curv", 12),
        SampledCurve sampled => Curve(sampled),
        ParametricCurve { Form: ParametricForm.Gamma } gamma when version == IccVersion.V2 && IsU8Fixed8(gamma.Parameters[0]) => Gamma(gamma.Parameters[0]),
        ParametricCurve parametric when version == IccVersion.V4 => Curve(parametric),
        _ => Curve(SampledCurve.Of(SampledEntries, curve.Evaluate)),
    };

    /// <summary>Enough for a curve drawn point by point to be within half a code of its formula, but for its toe.</summary>
    public const int SampledEntries = 4096;

    public static string First(IReadOnlyList<LocalText> texts) =>
        texts.Count > 0 ? texts[0].Text : throw new ArgumentException("A text needs at least one language.", nameof(texts));

    /// <summary>The text with everything beyond ASCII as question marks.</summary>
    public static string Ascii(string text) => string.Concat(text.Select(c => c is '\0' or > '\x7e' ? '?' : c));

    public static void XyzNumber(Span<byte> at, XyzNumber value)
    {
        S15Fixed16(at, value.X);
        S15Fixed16(at[4..], value.Y);
        S15Fixed16(at[8..], value.Z);
    }

    public static byte[] Typed(string type, int length)
    {
        var data = new byte[length];
        U32(data, Icc.Signature.Of(type).Value);
        return data;
    }

    public static void U32(Span<byte> at, uint value) => BinaryPrimitives.WriteUInt32BigEndian(at, value);

    public static void U16(Span<byte> at, ushort value) => BinaryPrimitives.WriteUInt16BigEndian(at, value);

    private static void S15Fixed16(Span<byte> at, double value) =>
        BinaryPrimitives.WriteInt32BigEndian(at, (int)Math.Round(Math.Clamp(value, -32768, 32767.99998) * 65536));

    private static byte[] Curve(SampledCurve curve)
    {
        var data = Typed("curv", 12 + (2 * curve.Entries.Length));
        U32(data.AsSpan(8), (uint)curve.Entries.Length);
        for (var i = 0; i < curve.Entries.Length; i++)
        {
            U16(data.AsSpan(12 + (2 * i)), curve.Entries[i]);
        }

        return data;
    }

    private static byte[] Curve(ParametricCurve curve)
    {
        var data = Typed("para", 12 + (4 * curve.Parameters.Count));
        U16(data.AsSpan(8), (ushort)curve.Form);
        for (var i = 0; i < curve.Parameters.Count; i++)
        {
            S15Fixed16(data.AsSpan(12 + (4 * i)), curve.Parameters[i]);
        }

        return data;
    }

    private static byte[] Gamma(double exponent)
    {
        var data = Typed("curv", 14);
        U32(data.AsSpan(8), 1);
        U16(data.AsSpan(12), (ushort)(exponent * 256));
        return data;
    }

    private static bool IsU8Fixed8(double exponent) => exponent < 256 && exponent * 256 == Math.Floor(exponent * 256);

    private static byte[] Code(string code, Func<char, bool> fits) => code.Length == 2 && code.All(fits)
        ? Encoding.ASCII.GetBytes(code)
        : throw new ArgumentException($"'{code}' is no code of two letters, as \"en\" and \"GB\".", nameof(code));
}

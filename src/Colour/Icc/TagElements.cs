using System.Text;

namespace Goodsheet.Colour.Icc;

/// <summary>Reads the smaller types of tag data (ICC.1 clause 10, from memory of the standard).</summary>
internal static class TagElements
{
    public static XyzNumber Xyz(IccReader data)
    {
        Expect(data, "XYZ ");
        return data.Xyz(8);
    }

    public static Matrix3 Matrix(IccReader data)
    {
        Expect(data, "sf32");
        return Matrix(data, 8, 9);
    }

    public static Matrix3 Matrix(IccReader data, int at, int count)
    {
        Span<double> numbers = stackalloc double[count];
        for (var i = 0; i < count; i++)
        {
            numbers[i] = data.S15Fixed16(at + (4 * i));
        }

        return new(numbers);
    }

    /// <summary>Text in whichever of the three types it is: the first language where there are several.</summary>
    public static string Text(IccReader data)
    {
        switch (data.Signature(0).ToString())
        {
            case "text":
                return Trimmed(Encoding.Latin1.GetString(data.Bytes(8, data.Length - 8)));

            case "desc":
                var length = data.Count(8, data.Length - 12, "characters");
                return Trimmed(Encoding.Latin1.GetString(data.Bytes(12, length)));

            case "mluc":
                var records = data.Count(8, IccLimits.Languages, "languages");
                if (records == 0)
                {
                    return "";
                }

                var bytes = data.Count(20, data.Length, "bytes of text");
                var at = data.Count(24, data.Length, "bytes before the text");
                return Trimmed(Encoding.BigEndianUnicode.GetString(data.Bytes(at, bytes)));

            default:
                throw data.Fault(0, $"Text of type '{data.Signature(0)}' is not known.");
        }
    }

    public static ToneCurve Curve(IccReader data) => Curve(data, out _);

    /// <summary>A curve, and how many bytes it takes.</summary>
    public static ToneCurve Curve(IccReader data, out int size)
    {
        switch (data.Signature(0).ToString())
        {
            case "curv":
                var count = data.Count(8, IccLimits.CurveEntries, "entries in a curve");
                size = 12 + (2 * count);
                return count switch
                {
                    0 => ToneCurve.Identity,
                    1 => Gamma(data),
                    _ => new SampledCurve(data.Codes(12, count, wide: true)),
                };

            case "para":
                return Parametric(data, out size);

            default:
                throw data.Fault(0, $"A curve of type '{data.Signature(0)}' is not known.");
        }
    }

    public static void Expect(IccReader data, string type)
    {
        if (data.Signature(0) != Signature.Of(type))
        {
            throw data.Fault(0, $"The data are of type '{data.Signature(0)}' where '{type}' belongs.");
        }
    }

    private static ToneCurve Gamma(IccReader data)
    {
        var gamma = data.U16(12) / 256.0;
        return gamma > 0 ? ToneCurve.Gamma(gamma) : throw data.Fault(12, "A curve has the exponent 0.");
    }

    private static ParametricCurve Parametric(IccReader data, out int size)
    {
        if (data.U16(8) is var form && form > (ushort)ParametricForm.LinearToeAndFloor)
        {
            throw data.Fault(8, $"There is no parametric curve of form {form}.");
        }

        var parameters = new double[ParametricCurve.CountOf((ParametricForm)form)];
        for (var i = 0; i < parameters.Length; i++)
        {
            parameters[i] = data.S15Fixed16(12 + (4 * i));
        }

        size = 12 + (4 * parameters.Length);
        return parameters[0] > 0 && (parameters.Length == 1 || parameters[1] > 0)
            ? new((ParametricForm)form, parameters)
            : throw data.Fault(12, "A curve has an exponent or a slope that is not above 0.");
    }

    private static string Trimmed(string text) => text.TrimEnd('\0');
}

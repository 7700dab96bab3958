using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Goodsheet.Colour.Numerics;

/// <summary>The few vector loops that the models spend their time in, at the width the machine has.</summary>
internal static class Simd
{
    /// <summary>Values per vector: buffers are padded to a multiple of it.</summary>
    public static int Lanes => Vector<double>.Count;

    public static int Padded(int n) => (n + Lanes - 1) / Lanes * Lanes;

    public static ReadOnlySpan<Vector<double>> Vectors(ReadOnlySpan<double> a) => MemoryMarshal.Cast<double, Vector<double>>(a);

    public static Span<Vector<double>> Vectors(Span<double> a) => MemoryMarshal.Cast<double, Vector<double>>(a);

    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        b = b[..a.Length];
        var va = Vectors(a);
        var vb = Vectors(b);
        var (s0, s1) = (Vector<double>.Zero, Vector<double>.Zero);
        var i = 0;
        for (; i + 1 < va.Length; i += 2)
        {
            s0 = Vector.FusedMultiplyAdd(va[i], vb[i], s0);
            s1 = Vector.FusedMultiplyAdd(va[i + 1], vb[i + 1], s1);
        }

        if (i < va.Length)
        {
            s0 = Vector.FusedMultiplyAdd(va[i], vb[i], s0);
        }

        var sum = Vector.Sum(s0 + s1);
        for (var k = va.Length * Lanes; k < a.Length; k++)
        {
            sum += a[k] * b[k];
        }

        return sum;
    }

    /// <summary>y += f x.</summary>
    public static void AddScaled(Span<double> y, double f, ReadOnlySpan<double> x)
    {
        x = x[..y.Length];
        var vy = Vectors(y);
        var vx = Vectors(x);
        var vf = new Vector<double>(f);
        for (var i = 0; i < vy.Length; i++)
        {
            vy[i] = Vector.FusedMultiplyAdd(vf, vx[i], vy[i]);
        }

        for (var k = vy.Length * Lanes; k < y.Length; k++)
        {
            y[k] += f * x[k];
        }
    }

    /// <summary>e to the x for x from −700 to 0, to about 1e-11 of its value.</summary>
    /// <remarks>2 to the whole part by the exponent's bits, the rest (at most ln 2 / 2) by Taylor to the 9th power.</remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector<double> ExpOfNegative(Vector<double> x)
    {
        x = Vector.Max(x, new Vector<double>(-700));
        var whole = Vector.Floor(Vector.FusedMultiplyAdd(x, new(1.4426950408889634), new(0.5)));
        var r = Vector.FusedMultiplyAdd(whole, new(-0.693147180559945309), x);
        var p = new Vector<double>(1.0 / 362_880);
        p = Vector.FusedMultiplyAdd(p, r, new(1.0 / 40_320));
        p = Vector.FusedMultiplyAdd(p, r, new(1.0 / 5_040));
        p = Vector.FusedMultiplyAdd(p, r, new(1.0 / 720));
        p = Vector.FusedMultiplyAdd(p, r, new(1.0 / 120));
        p = Vector.FusedMultiplyAdd(p, r, new(1.0 / 24));
        p = Vector.FusedMultiplyAdd(p, r, new(1.0 / 6));
        p = Vector.FusedMultiplyAdd(p, r, new(0.5));
        p = Vector.FusedMultiplyAdd(p, r, Vector<double>.One);
        p = Vector.FusedMultiplyAdd(p, r, Vector<double>.One);

        // Adding 1.5 * 2^52 leaves the whole number in the low bits; shifted up, it is added to the exponent.
        var magic = Vector.AsVectorInt64(whole + new Vector<double>(6_755_399_441_055_744));
        return Vector.AsVectorDouble(Vector.AsVectorInt64(p) + Vector.ShiftLeft(magic, 52));
    }
}

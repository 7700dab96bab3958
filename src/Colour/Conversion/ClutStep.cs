using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Conversion;

/// <summary>Codes through a colour table of three or four inputs, in the whole numbers in which the reference engine reads it.</summary>
/// <remarks>
/// The outputs of a node are one vector. Rounding is to the nearest code, once in a tetrahedron and after each of the
/// three directions between eight corners: from memory of the source of Little CMS 2, which is our test.
/// </remarks>
internal sealed class ClutStep : PixelStep
{
    /// <summary>Codes a node takes.</summary>
    internal const int Lanes = 4;

    private readonly ushort[] nodes;
    private readonly int[] last;
    private readonly int[] stride;
    private readonly bool eightCorners;
    private readonly bool wide;
    private readonly bool gentle;

    /// <param name="table">Of three or four inputs.</param>
    /// <param name="how">How it is read.</param>
    /// <param name="narrow">Pixel by pixel even where the machine has vectors: both give the same codes.</param>
    public ClutStep(Clut table, Interpolation how, bool narrow = false)
    {
        wide = table.Inputs == 3 && WideClut.IsSupported && !narrow;
        var outputs = table.Outputs;
        eightCorners = how == Interpolation.Multilinear;
        last = [.. table.Grid.Select(g => g - 1)];
        stride = new int[table.Inputs];
        var step = Lanes;
        for (var i = table.Inputs - 1; i >= 0; i--)
        {
            stride[i] = step;
            step *= table.Grid[i];
        }

        nodes = new ushort[step + stride.Sum()];
        for (var i = 0; i < step / Lanes; i++)
        {
            table.Nodes.Slice(i * outputs, outputs).CopyTo(nodes.AsSpan(i * Lanes));
        }

        gentle = wide && eightCorners && GentleClut.IsGentle(table);
    }

    /// <summary>Whether the step takes tables of so many inputs, read in that way.</summary>
    public static bool Takes(Clut table, Interpolation how) => table.Inputs == 3 || (table.Inputs == 4 && how == Interpolation.Tetrahedral);

    /// <inheritdoc/>
    public override void Apply(PixelPlanes pixels)
    {
        if (gentle)
        {
            GentleClut.Apply(nodes, last, stride, pixels);
            return;
        }

        if (wide)
        {
            WideClut.Apply(nodes, last, stride, eightCorners, pixels);
            return;
        }

        var (a, b, c, d) = (pixels.Codes[0], pixels.Codes[1], pixels.Codes[2], pixels.Codes[3]);
        for (var i = 0; i < pixels.Count; i++)
        {
            var value = last.Length == 4 ? Four(a[i], b[i], c[i], d[i]) : Three(0, a[i], b[i], c[i], 0);
            // All four lanes: nobody looks at a plane beyond the outputs.
            a[i] = unchecked((ushort)value.GetElement(0));
            b[i] = unchecked((ushort)value.GetElement(1));
            c[i] = unchecked((ushort)value.GetElement(2));
            d[i] = unchecked((ushort)value.GetElement(3));
        }
    }

    private Vector128<int> Four(ushort k, ushort x, ushort y, ushort z)
    {
        var at = Fixed.Of(k * last[0]);
        var origin = (at >> 16) * stride[0];
        var near = Three(1, x, y, z, origin);
        var rest = at & 0xFFFF;
        return rest == 0 ? near : Straight(near, Three(1, x, y, z, origin + stride[0]), rest);
    }

    private Vector128<int> Three(int first, ushort x, ushort y, ushort z, int origin)
    {
        var (fx, fy, fz) = (Fixed.Of(x * last[first]), Fixed.Of(y * last[first + 1]), Fixed.Of(z * last[first + 2]));
        origin += ((fx >> 16) * stride[first]) + ((fy >> 16) * stride[first + 1]) + ((fz >> 16) * stride[first + 2]);
        // On the last node there is no next one, and none is needed.
        var (sx, sy, sz) = (x == ushort.MaxValue ? 0 : stride[first], y == ushort.MaxValue ? 0 : stride[first + 1], z == ushort.MaxValue ? 0 : stride[first + 2]);
        var (rx, ry, rz) = (fx & 0xFFFF, fy & 0xFFFF, fz & 0xFFFF);
        return eightCorners ? Corners(origin, sx, sy, sz, rx, ry, rz) : Tetrahedron(origin, sx, sy, sz, rx, ry, rz);
    }

    private Vector128<int> Corners(int at, int sx, int sy, int sz, int rx, int ry, int rz)
    {
        var x00 = Straight(Node(at), Node(at + sx), rx);
        var x01 = Straight(Node(at + sz), Node(at + sx + sz), rx);
        var x10 = Straight(Node(at + sy), Node(at + sx + sy), rx);
        var x11 = Straight(Node(at + sy + sz), Node(at + sx + sy + sz), rx);
        return Straight(Straight(x00, x10, ry), Straight(x01, x11, ry), rz);
    }

    private Vector128<int> Tetrahedron(int at, int sx, int sy, int sz, int rx, int ry, int rz)
    {
        // From the near corner to the far one along the longest way first.
        var (s1, r1, s2, r2, s3, r3) = (rx >= ry, ry >= rz, rx >= rz) switch
        {
            (true, true, _) => (sx, rx, sy, ry, sz, rz),
            (true, false, true) => (sx, rx, sz, rz, sy, ry),
            (true, false, false) => (sz, rz, sx, rx, sy, ry),
            (false, _, true) => (sy, ry, sx, rx, sz, rz),
            (false, true, false) => (sy, ry, sz, rz, sx, rx),
            (false, false, false) => (sz, rz, sy, ry, sx, rx),
        };
        var near = Node(at);
        var one = Node(at + s1);
        var two = Node(at + s1 + s2);
        var far = Node(at + s1 + s2 + s3);
        var sum = ((one - near) * r1) + ((two - one) * r2) + ((far - two) * r3);
        if (last.Length == 4)
        {
            return (near + Vector128.Create(Whole(sum[0]), Whole(sum[1]), Whole(sum[2]), Whole(sum[3]))) & Vector128.Create(0xFFFF);
        }

        // The same division in steps that are off by one code at exact halves, as the reference engine has it for three inputs.
        var rest = sum + Vector128.Create(0x8001);
        return (near + ((rest + (rest >> 16)) >> 16)) & Vector128.Create(0xFFFF);
    }

    private static int Whole(int sum) => unchecked((sum + ((sum + 0x7FFF) / 0xFFFF) + 0x8000) >> 16);

    // Large steps overflow, and come right again in the 16 bits that are kept.
    private static Vector128<int> Straight(Vector128<int> from, Vector128<int> to, int part) =>
        (from + ((((to - from) * part) + Vector128.Create(0x8000)) >> 16)) & Vector128.Create(0xFFFF);

    private Vector128<int> Node(int at) =>
        Vector128.WidenLower(Vector128.CreateScalarUnsafe(Unsafe.ReadUnaligned<ulong>(ref Unsafe.As<ushort, byte>(ref nodes[at]))).AsUInt16()).AsInt32(); // a node is four codes
}

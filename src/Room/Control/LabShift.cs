namespace Goodsheet.Room.Control;

/// <summary>How far one colour stands from another, axis by axis, in L*a*b*.</summary>
public readonly record struct LabShift(double L, double A, double B)
{
    public double Size => Math.Sqrt((L * L) + (A * A) + (B * B));

    public static LabShift operator +(LabShift x, LabShift y) => new(x.L + y.L, x.A + y.A, x.B + y.B);

    public static LabShift operator -(LabShift x, LabShift y) => new(x.L - y.L, x.A - y.A, x.B - y.B);

    public static LabShift operator *(double f, LabShift x) => new(f * x.L, f * x.A, f * x.B);

    public static double Dot(LabShift x, LabShift y) => (x.L * y.L) + (x.A * y.A) + (x.B * y.B);
}

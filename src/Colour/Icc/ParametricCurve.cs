using static System.Math;

namespace Goodsheet.Colour.Icc;

/// <summary>The five functions of parametricCurveType (ICC.1 clause 10.18, table of function types).</summary>
public enum ParametricForm
{
    /// <summary>y = x^g.</summary>
    Gamma = 0,

    /// <summary>y = (a x + b)^g from x = -b/a on, else 0.</summary>
    Offset = 1,

    /// <summary>y = (a x + b)^g + c from x = -b/a on, else c.</summary>
    OffsetAndFloor = 2,

    /// <summary>y = (a x + b)^g from x = d on, else c x.</summary>
    LinearToe = 3,

    /// <summary>y = (a x + b)^g + e from x = d on, else c x + f.</summary>
    LinearToeAndFloor = 4,
}

/// <summary>A curve by formula. Neither its argument nor its value is clipped.</summary>
public sealed record ParametricCurve : ToneCurve
{
    private static readonly int[] Counts = [1, 3, 4, 5, 7];

    private readonly double g;
    private readonly double a = 1;
    private readonly double b;
    private readonly double c;
    private readonly double d;
    private readonly double e;
    private readonly double f;

    /// <summary>A curve of the given form.</summary>
    /// <param name="form">Which function.</param>
    /// <param name="parameters">Its parameters in the order of the standard: g, a, b, c, d, e, f.</param>
    /// <exception cref="ArgumentException">Their number is wrong, one is not finite, or they make no curve: the
    /// exponent must be above 0, and so must a.</exception>
    public ParametricCurve(ParametricForm form, params ReadOnlySpan<double> parameters)
    {
        if (parameters.Length != CountOf(form))
        {
            throw new ArgumentException($"{form} has {CountOf(form)} parameters, not {parameters.Length}.", nameof(parameters));
        }

        foreach (var value in parameters)
        {
            if (!double.IsFinite(value))
            {
                throw new ArgumentException("A parameter is no number.", nameof(parameters));
            }
        }

        if (parameters[0] <= 0 || (parameters.Length > 1 && parameters[1] <= 0))
        {
            throw new ArgumentException("The exponent and the slope of a curve must be above 0.", nameof(parameters));
        }

        Form = form;
        g = parameters[0];
        a = Or(parameters, 1, 1);
        b = Or(parameters, 2, 0);
        c = Or(parameters, 3, 0);
        d = Or(parameters, 4, 0);
        e = Or(parameters, 5, 0);
        f = Or(parameters, 6, 0);
    }

    /// <summary>Which function it is.</summary>
    public ParametricForm Form { get; }

    /// <summary>Its parameters in the order of the standard: g, a, b, c, d, e, f.</summary>
    public IReadOnlyList<double> Parameters => new[] { g, a, b, c, d, e, f }[..CountOf(Form)];

    /// <inheritdoc/>
    public override bool IsIdentity => Form == ParametricForm.Gamma && g == 1;

    /// <summary>How many parameters a form has.</summary>
    public static int CountOf(ParametricForm form) => Counts[(int)form];

    /// <inheritdoc/>
    public override double Evaluate(double x) => Form switch
    {
        ParametricForm.Gamma => g == 1 ? x : Power(x),
        ParametricForm.Offset => x >= -b / a ? Power((a * x) + b) : 0,
        ParametricForm.OffsetAndFloor => x >= -b / a ? Power((a * x) + b) + c : c,
        ParametricForm.LinearToe => x >= d ? Power((a * x) + b) : c * x,
        ParametricForm.LinearToeAndFloor => x >= d ? Power((a * x) + b) + e : (c * x) + f,
        _ => throw new InvalidOperationException($"{Form} is no form of curve."),
    };

    /// <inheritdoc/>
    public override double Invert(double y) => Form switch
    {
        ParametricForm.Gamma => g == 1 ? y : Root(y),
        ParametricForm.Offset => Max(0, Straight(y)),
        ParametricForm.OffsetAndFloor => Max(0, Straight(y - c)),
        ParametricForm.LinearToe => y >= Power((a * d) + b) || c == 0 ? Straight(y) : y / c,
        ParametricForm.LinearToeAndFloor => y >= Power((a * d) + b) + e || c == 0 ? Straight(y - e) : (y - f) / c,
        _ => throw new InvalidOperationException($"{Form} is no form of curve."),
    };

    private static double Or(ReadOnlySpan<double> parameters, int index, double otherwise) =>
        index < parameters.Length ? parameters[index] : otherwise;

    private double Power(double x) => x > 0 ? Pow(x, g) : 0;

    private double Root(double y) => y > 0 ? Pow(y, 1 / g) : 0;

    private double Straight(double y) => (Root(y) - b) / a;
}

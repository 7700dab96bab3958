namespace Goodsheet.Colour.Icc;

/// <summary>A curve of one channel: what goes in and what comes out are nominally 0 to 1.</summary>
/// <remarks>The forms of ICC.1: curveType (10.6) and parametricCurveType (10.18), numbers from memory of the 2022
/// edition. Immutable.</remarks>
public abstract record ToneCurve
{
    /// <summary>The curve that leaves everything as it is.</summary>
    public static readonly ToneCurve Identity = new ParametricCurve(ParametricForm.Gamma, 1);

    /// <summary>A power curve, y = x^<paramref name="exponent"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The exponent is not above 0.</exception>
    public static ToneCurve Gamma(double exponent) => new ParametricCurve(ParametricForm.Gamma, exponent);

    /// <summary>Whether the curve changes nothing.</summary>
    public abstract bool IsIdentity { get; }

    /// <summary>The value of the curve.</summary>
    /// <param name="x">What goes in. A sampled curve clips it to 0 to 1; a parametric one does not.</param>
    public abstract double Evaluate(double x);

    /// <summary>The x that gives <paramref name="y"/>: the highest one where there are several, the nearest end where
    /// there is none.</summary>
    public abstract double Invert(double y);
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Imaging;

/// <summary>How far a print falls short of a picture's colours: ΔE00 between what is asked and what the profile says comes out.</summary>
/// <remarks>By the relative colorimetric tables, there and back; with black-point compensation the colour asked is the compensated one.</remarks>
internal sealed class GamutTest
{
    /// <summary>From here on a colour counts as not held: seen side by side. Common practice, no source.</summary>
    public const double Held = 2;

    private const RenderingIntent Intent = RenderingIntent.RelativeColorimetric;

    private readonly ColourTransform asked;
    private readonly ColourTransform print;
    private readonly ColourTransform printed;
    private readonly Matrix3? compensation;

    /// <exception cref="ArgumentException">A profile has no way to colours or from them.</exception>
    public GamutTest(IccProfile picture, IccProfile printer, bool blackPointCompensation)
    {
        asked = ColourTransform.ToLab(picture, Intent);
        print = ColourTransform.FromLab(printer, Intent);
        printed = ColourTransform.ToLab(printer, Intent);
        compensation = blackPointCompensation
            ? BlackPoint.Compensation(BlackPoint.OfSource(picture, Intent), BlackPoint.OfDestination(printer, Intent))
            : null;
    }

    /// <summary>The colour asked for, relative to paper white, and how far the print is from it.</summary>
    public (Lab Asked, DeltaE00 Missed) Of(ReadOnlySpan<double> pixel)
    {
        Span<double> lab = stackalloc double[3];
        Span<double> device = stackalloc double[4];
        Span<double> back = stackalloc double[3];
        device = device[..print.Outputs];
        asked.Apply(pixel, lab);
        var wanted = Compensated(new(lab[0], lab[1], lab[2]));
        print.Apply([wanted.L, wanted.A, wanted.B], device);
        printed.Apply(device, back);
        return (wanted, CieDe2000.Between(wanted, new(back[0], back[1], back[2])));
    }

    private Lab Compensated(Lab lab)
    {
        if (compensation is null)
        {
            return lab;
        }

        Span<double> xyz = stackalloc double[3];
        Span<double> moved = stackalloc double[3];
        PcsStage.ToXyz([lab.L, lab.A, lab.B], xyz);
        compensation.Apply(xyz, moved);
        PcsStage.ToLab(moved, xyz);
        return new(xyz[0], xyz[1], xyz[2]);
    }
}

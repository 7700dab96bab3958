using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Conversion;

/// <summary>From the colours of one profile to those of another, in double precision and without shortcuts.</summary>
/// <remarks>
/// This is the reference that faster ways are measured against. What it does is what Little CMS 2 does, which is our
/// test: tables, then media white or black point, then tables. Device values are 0 to 1 and clipped to that at the end.
/// Immutable; may be used from several threads at once.
/// </remarks>
public sealed class ColourTransform
{
    private readonly Pipeline pipeline;
    private readonly bool clips;
    private readonly (IReadOnlyList<Stage> Source, IReadOnlyList<Stage> Bridge, IReadOnlyList<Stage> Destination) parts;

    private ColourTransform(IReadOnlyList<Stage> source, IReadOnlyList<Stage> bridge, IReadOnlyList<Stage> destination, ColourSpace to)
    {
        parts = (source, bridge, destination);
        pipeline = new([.. source, .. bridge, .. destination]);
        clips = to is not (ColourSpace.Lab or ColourSpace.Xyz);
    }

    /// <summary>How many numbers a colour that goes in has.</summary>
    public int Inputs => pipeline.Inputs;

    /// <summary>How many numbers a colour that comes out has.</summary>
    public int Outputs => pipeline.Outputs;

    /// <summary>A transform between two profiles.</summary>
    /// <param name="source">The profile of the picture.</param>
    /// <param name="destination">The profile of the printer with its paper, or of the screen.</param>
    /// <param name="intent">What to give up.</param>
    /// <param name="blackPointCompensation">Whether the darkest colour goes to the darkest. As in other engines it is
    /// never done for the absolute intent, and always for perceptual and saturation into a version 4 profile, where it
    /// bridges to a version 2 source.</param>
    /// <exception cref="ArgumentException">The source has no way to the connection space, or the destination none from
    /// it: ask <see cref="IccProfile.ToPcs"/> and <see cref="IccProfile.FromPcs"/> first.</exception>
    public static ColourTransform Create(
        IccProfile source, IccProfile destination, RenderingIntent intent, bool blackPointCompensation)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(destination);
        var to = source.ToPcs(intent)
            ?? throw new ArgumentException("The source profile has no way from its device to colours.", nameof(source));
        var from = destination.FromPcs(intent)
            ?? throw new ArgumentException("The destination profile has no way from colours to its device.", nameof(destination));
        return new(
            to.Stages,
            Bridge(source.Header.Pcs, destination.Header.Pcs, Between(source, destination, intent, blackPointCompensation)),
            from.Stages,
            destination.Header.Space);
    }

    /// <summary>From device values to L*a*b* under D50: with the absolute intent relative to a perfect diffuser, else
    /// relative to the media white.</summary>
    /// <exception cref="ArgumentException">The profile has no way to the connection space.</exception>
    public static ColourTransform ToLab(IccProfile profile, RenderingIntent intent)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var to = profile.ToPcs(intent)
            ?? throw new ArgumentException("The profile has no way from its device to colours.", nameof(profile));
        var white = intent == RenderingIntent.AbsoluteColorimetric ? Ratio(profile.MediaWhiteForAbsolute(), XyzNumber.D50) : null;
        return new(to.Stages, Bridge(profile.Header.Pcs, ColourSpace.Lab, white), [], ColourSpace.Lab);
    }

    /// <summary>From L*a*b* under D50 to device values, relative to what <see cref="ToLab"/> is relative to.</summary>
    /// <exception cref="ArgumentException">The profile has no way from the connection space.</exception>
    public static ColourTransform FromLab(IccProfile profile, RenderingIntent intent)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var from = profile.FromPcs(intent)
            ?? throw new ArgumentException("The profile has no way from colours to its device.", nameof(profile));
        var white = intent == RenderingIntent.AbsoluteColorimetric ? Ratio(XyzNumber.D50, profile.MediaWhiteForAbsolute()) : null;
        return new([], Bridge(ColourSpace.Lab, profile.Header.Pcs, white), from.Stages, profile.Header.Space);
    }

    /// <summary>Takes colours through.</summary>
    /// <param name="source">Rows of <see cref="Inputs"/> numbers: device values 0 to 1, or L*a*b*, or XYZ.</param>
    /// <param name="destination">As many rows of <see cref="Outputs"/> numbers, to be filled.</param>
    /// <exception cref="ArgumentException">The two do not hold the same number of whole rows.</exception>
    public void Apply(ReadOnlySpan<double> source, Span<double> destination)
    {
        var rows = source.Length / Inputs;
        if (source.Length != rows * Inputs || destination.Length != rows * Outputs)
        {
            throw new ArgumentException(
                $"{source.Length} numbers in rows of {Inputs} do not go into {destination.Length} in rows of {Outputs}.", nameof(destination));
        }

        for (var row = 0; row < rows; row++)
        {
            var colour = destination.Slice(row * Outputs, Outputs);
            pipeline.Apply(source.Slice(row * Inputs, Inputs), colour);
            if (clips)
            {
                for (var i = 0; i < colour.Length; i++)
                {
                    colour[i] = double.IsNaN(colour[i]) ? 0 : Math.Clamp(colour[i], 0, 1);
                }
            }
        }
    }

    /// <summary>The same conversion as steps for many 16-bit pixels at once, tables read in 16 bits.</summary>
    /// <remarks>Only of transforms between two devices.</remarks>
    internal IReadOnlyList<PixelStep> PixelSteps() => Conversion.PixelSteps.Of(parts.Source, parts.Bridge, parts.Destination);

    private static Matrix3? Between(IccProfile source, IccProfile destination, RenderingIntent intent, bool compensate)
    {
        if (intent == RenderingIntent.AbsoluteColorimetric)
        {
            return Ratio(source.MediaWhiteForAbsolute(), destination.MediaWhiteForAbsolute());
        }

        var bridgesVersions = intent != RenderingIntent.RelativeColorimetric && destination.Header.Major >= 4;
        return compensate || bridgesVersions
            ? BlackPoint.Compensation(BlackPoint.OfSource(source, intent), BlackPoint.OfDestination(destination, intent))
            : null;
    }

    private static Matrix3 Ratio(XyzNumber above, XyzNumber below) =>
        new(above.X / below.X, 0, 0, 0, above.Y / below.Y, 0, 0, 0, above.Z / below.Z);

    // A move that no eye sees is not made, as in the reference engine (its limit, from memory of its source).
    private static bool IsTooLittle(Matrix3 move)
    {
        const double least = 0.002;
        Span<double> shift = stackalloc double[3];
        move.Apply([0, 0, 0], shift);
        var sum = 0.0;
        for (var i = 0; i < 3; i++)
        {
            sum += Math.Abs(shift[i]) / Conversion.PixelSteps.MostXyz;
            for (var j = 0; j < 3; j++)
            {
                sum += Math.Abs(move[i, j] - (i == j ? 1 : 0));
            }
        }

        return sum < least;
    }

    // From one connection space to another, through XYZ where the colour is moved there.
    internal static List<Stage> Bridge(ColourSpace from, ColourSpace to, Matrix3? inXyz)
    {
        List<Stage> stages = [];
        var moves = inXyz is not null && !IsTooLittle(inXyz);
        if (from == ColourSpace.Lab && (moves || to == ColourSpace.Xyz))
        {
            stages.Add(new PcsStage(ColourSpace.Lab, ColourSpace.Xyz));
        }

        if (moves)
        {
            stages.Add(new MatrixStage(inXyz!));
        }

        if (to == ColourSpace.Lab && (moves || from == ColourSpace.Xyz))
        {
            stages.Add(new PcsStage(ColourSpace.Xyz, ColourSpace.Lab));
        }

        return stages;
    }
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>Writes a printer profile of version 4 once more as version 2.4, for programs that read no newer one.</summary>
/// <remarks>
/// The colorimetric and saturation tables stay node for node. The perceptual intent of version 4 starts from a reference
/// medium whose black has 0.30911 % of the white's luminance, that of version 2 from a black of 0: its tables are scaled
/// in XYZ from the one to the other, so that black still prints as black as it can.
/// </remarks>
public static class OlderVersion
{
    private const double ReferenceBlack = 0.0030911; // ICC.1, perceptual reference medium
    private const int Halvings = 40; // finer than the 16 bits of a curve

    /// <summary>The profile as version 2.4.</summary>
    /// <param name="profile">A printer profile of version 4 with a table for each intent and way, each of curves, table and
    /// curves: what is made here.</param>
    /// <returns>The file; null where the profile is of another form, or of version 2 already.</returns>
    public static byte[]? Of(IccProfile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        if (Tables(profile) is not var (to, from, gamut))
        {
            return null;
        }

        var head = profile.Header;
        var reference = profile.Data(TagSignature.PerceptualGamut) is not null;
        return IccProfileWriter.Write(
            new PrinterProfile
            {
                Space = head.Space,
                Created = new(head.Created ?? DateTime.UnixEpoch, TimeSpan.Zero),
                Description = [new("en", "GB", profile.Description)],
                Copyright = [new("en", "GB", profile.Copyright)],
                MediaWhite = profile.MediaWhite,
                MediaBlack = Black(profile),
                ChromaticAdaptation = profile.ChromaticAdaptation,
                A2B0 = reference ? Scaled(to[0]) : to[0],
                A2B1 = to[1],
                A2B2 = ReferenceEquals(profile.ToPcs(RenderingIntent.Saturation), profile.ToPcs(RenderingIntent.Perceptual)) && reference ? Scaled(to[2]) : to[2],
                B2A0 = reference ? Drawn(from[0]) : from[0],
                B2A1 = from[1],
                B2A2 = ReferenceEquals(profile.FromPcs(RenderingIntent.Saturation), profile.FromPcs(RenderingIntent.Perceptual)) && reference ? Drawn(from[2]) : from[2],
                Gamut = gamut,
                CharTarget = profile.CharTarget,
                Matte = (profile.Bytes.Span[63] & 2) != 0, // the low word of the attributes
                Intent = head.Intent,
            },
            IccVersion.V2);
    }

    /// <summary>Whether a profile can be written as version 2.4, without writing it.</summary>
    public static bool CanBeOf(IccProfile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return Tables(profile) is not null;
    }

    private static (LutTable[] To, LutTable[] From, LutTable Gamut)? Tables(IccProfile profile)
    {
        if (profile.Header is not { Major: 4, Class: ProfileClass.Output, Pcs: ColourSpace.Lab }
            || !Intents().All(i => profile.HasTableToPcs(i) && profile.HasTableFromPcs(i)))
        {
            return null;
        }

        LutTable[] to = [.. Intents().Select(i => Table(profile.ToPcs(i))).OfType<LutTable>()];
        LutTable[] from = [.. Intents().Select(i => Table(profile.FromPcs(i))).OfType<LutTable>()];
        return Table(profile.Gamut) is { } gamut && to.Length + from.Length == 2 * Intents().Length && to.Concat(from).All(t => t.Table.Grid.All(g => g == t.Table.Grid[0]))
            ? (to, from, gamut) : null;
    }

    private static RenderingIntent[] Intents() => [RenderingIntent.Perceptual, RenderingIntent.RelativeColorimetric, RenderingIntent.Saturation];

    // Curves, table, curves, with Lab encoded as in version 4 at its end; anything else is not ours.
    private static LutTable? Table(Pipeline? pipeline) =>
        pipeline is not null && pipeline.Stages.OfType<EncodingStage>().All(e => e.Encoding == PcsEncoding.LabV4)
        && pipeline.Stages.Where(s => s is not EncodingStage).ToArray() is [CurveStage before, ClutStage table, CurveStage after]
            ? new(before.Curves, table.Table, after.Curves) : null;

    private static XyzNumber Black(IccProfile profile)
    {
        var device = new double[profile.Header.Space.Channels()];
        profile.FromPcs(RenderingIntent.RelativeColorimetric)!.Apply([0, 0, 0], device);
        for (var i = 0; i < device.Length; i++)
        {
            device[i] = Math.Clamp(device[i], 0, 1);
        }

        Span<double> lab = stackalloc double[3];
        profile.ToPcs(RenderingIntent.RelativeColorimetric)!.Apply(device, lab);
        var (black, white) = (new Lab(lab[0], lab[1], lab[2]).ToXyz(Xyz.PcsD50), profile.MediaWhite);
        return new(
            Math.Max(0, black.X / Xyz.PcsD50.X * white.X), Math.Max(0, black.Y / Xyz.PcsD50.Y * white.Y), Math.Max(0, black.Z / Xyz.PcsD50.Z * white.Z));
    }

    // A colour of version 2's connection space as that of version 4 has it: its black is the reference medium's.
    private static Lab ToReference(Lab colour) => FromWhite(colour, 1 - ReferenceBlack);

    private static Lab FromReference(Lab colour) => FromWhite(colour, 1 / (1 - ReferenceBlack));

    private static Lab FromWhite(Lab colour, double scale)
    {
        var (xyz, white) = (colour.ToXyz(Xyz.PcsD50), Xyz.PcsD50);
        return new Xyz(white.X - ((white.X - xyz.X) * scale), white.Y - ((white.Y - xyz.Y) * scale), white.Z - ((white.Z - xyz.Z) * scale)).ToLab(white);
    }

    private static LutTable Scaled(LutTable table)
    {
        var codes = table.Table.Nodes.ToArray();
        Span<double> lab = stackalloc double[3];
        for (var i = 0; i < codes.Length; i += 3)
        {
            for (var k = 0; k < 3; k++)
            {
                lab[k] = table.OutputCurves[k].Evaluate(codes[i + k] / 65535.0);
            }

            Encode(FromReference(Decode(lab)), lab);
            for (var k = 0; k < 3; k++)
            {
                codes[i + k] = Code(lab[k]);
            }
        }

        return new(table.InputCurves, new Clut([.. table.Table.Grid], 3, codes), [ToneCurve.Identity, ToneCurve.Identity, ToneCurve.Identity]);
    }

    private static LutTable Drawn(LutTable table)
    {
        var grid = table.Table.Grid[0];
        Span<double> lab = stackalloc double[3];
        if (grid == 2)
        {
            // The table hands lightness through, as for grey alone: all the work is in the curve.
            var curve = table.InputCurves[0];
            return new(
                [SampledCurve.Of(4081, x => curve.Evaluate(Math.Clamp(ToReference(new(100 * x, 0, 0)).L / 100, 0, 1))), table.InputCurves[1], table.InputCurves[2]], table.Table, table.OutputCurves);
        }

        var places = Enumerable.Range(0, 3).Select(k => Enumerable.Range(0, grid).Select(i => At(table.InputCurves[k], i / (grid - 1.0))).ToArray()).ToArray();
        var codes = new ushort[table.Table.Nodes.Length];
        var device = new double[table.Table.Outputs];
        for (var node = 0; node < grid * grid * grid; node++)
        {
            (lab[0], lab[1], lab[2]) = (places[0][node / (grid * grid)], places[1][node / grid % grid], places[2][node % grid]);
            Encode(ToReference(Decode(lab)), lab);
            for (var k = 0; k < 3; k++)
            {
                lab[k] = table.InputCurves[k].Evaluate(Math.Clamp(lab[k], 0, 1));
            }

            table.Table.Evaluate(lab, Interpolation.Multilinear, device);
            for (var k = 0; k < device.Length; k++)
            {
                codes[(node * device.Length) + k] = Code(device[k]);
            }
        }

        return new(table.InputCurves, new Clut([.. table.Table.Grid], device.Length, codes), table.OutputCurves);
    }

    // Where a rising curve reaches a node; where it stays at its end, the innermost such place.
    private static double At(ToneCurve curve, double node)
    {
        var (low, high) = (0.0, 1.0);
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (low + high) / 2;
            var value = curve.Evaluate(middle);
            (low, high) = value < node || (node == 0 && value <= 0) ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    private static Lab Decode(ReadOnlySpan<double> code)
    {
        Span<double> lab = stackalloc double[3];
        PcsEncoding.LabV4.Decode(code, lab);
        return new(lab[0], lab[1], lab[2]);
    }

    private static void Encode(Lab colour, Span<double> code) => PcsEncoding.LabV4.Encode([colour.L, colour.A, colour.B], code);

    private static ushort Code(double value) => (ushort)Math.Round(65535 * Math.Clamp(value, 0, 1));
}

using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Conversion;

/// <summary>Makes the steps of a conversion of 16-bit pixels out of the stages of profiles.</summary>
/// <remarks>
/// Tables and curves of 16 bits are read in 16 bits and all else is kept in single precision, as the reference engine
/// does it. The connection space so has the resolution that the profiles themselves give it, and a picture comes out
/// as from that engine. See docs/decisions/0081.
/// </remarks>
internal sealed class PixelSteps
{
    /// <summary>The XYZ that the number 1 stands for (ICC.1 clause 6.3.4, from memory).</summary>
    public const double MostXyz = 65535.0 / 32768;

    private static readonly double[] NoOffset = [0, 0, 0, 0];

    private readonly List<PixelStep> steps = [];
    private bool inCodes = true;
    private int channels;

    private PixelSteps(int inputs) => channels = inputs;

    /// <summary>From lightness to a profile's device by an intent and back to lightness relatively, tables read in 16 bits.</summary>
    public static Func<Lab, double> ThereAndBack(IReadOnlyList<Stage> there, IReadOnlyList<Stage> back, IReadOnlyList<Stage> bridgeTo, IReadOnlyList<Stage> bridgeFrom)
    {
        var made = new PixelSteps(3) { inCodes = false };
        made.Add(bridgeTo, plain: true, 1);
        made.Add(there, IsPlain(there), MostXyz);
        made.Add(back, IsPlain(back), 1 / MostXyz);
        made.Add(bridgeFrom, plain: true, 1);
        made.ToValues();
        return lab =>
        {
            var planes = new PixelPlanes { Count = 1 };
            (planes.Values[0][0], planes.Values[1][0], planes.Values[2][0]) = ((float)(lab.L / 100), (float)((lab.A + 128) / 255), (float)((lab.B + 128) / 255));
            made.steps.ForEach(s => s.Apply(planes));
            return planes.Values[0][0] * 100.0;
        };
    }

    /// <summary>The lightness of a device colour, tables read in 16 bits.</summary>
    public static double Lightness(IReadOnlyList<Stage> toPcs, IReadOnlyList<Stage> bridge, ReadOnlySpan<double> device)
    {
        var made = new PixelSteps(toPcs[0].Inputs);
        made.Add(toPcs, IsPlain(toPcs), 1 / MostXyz);
        made.Add(bridge, plain: true, 1);
        made.ToValues();
        var planes = new PixelPlanes { Count = 1 };
        for (var k = 0; k < device.Length; k++)
        {
            planes.Codes[k][0] = Encoding16.Round(device[k]);
        }

        made.steps.ForEach(s => s.Apply(planes));
        return planes.Values[0][0] * 100.0;
    }

    /// <summary>The steps of source stages, a bridge between connection spaces and destination stages.</summary>
    public static IReadOnlyList<PixelStep> Of(IReadOnlyList<Stage> source, IReadOnlyList<Stage> bridge, IReadOnlyList<Stage> destination)
    {
        var made = new PixelSteps(source[0].Inputs);
        made.Add(source, IsPlain(source), 1 / MostXyz);
        made.Add(bridge, plain: true, 1);
        made.Add(destination, IsPlain(destination), MostXyz);
        made.ToCodes();
        return made.steps;
    }

    // Profiles without tables give colours themselves, those with tables numbers of 0 to 1.
    private static bool IsPlain(IReadOnlyList<Stage> stages) => !stages.Any(s => s is EncodingStage);

    private void Add(IReadOnlyList<Stage> stages, bool plain, double scale)
    {
        foreach (var stage in stages)
        {
            switch (stage)
            {
                case CurveStage curves:
                    Add([.. curves.Curves.Select(c => (c as SampledCurve, (Func<double, double>)c.Evaluate))]);
                    break;
                case InverseCurveStage curves:
                    Add([.. curves.Curves.Select(c => ((SampledCurve?)null, (Func<double, double>)c.Invert))]);
                    break;
                case MatrixStage { Matrix: var m }:
                    var shift = new double[3];
                    m.Apply([0, 0, 0], shift);
                    Add(Rows(m, plain ? scale : 1), [.. shift.Select(o => plain ? o / MostXyz : o)]);
                    break;
                case ClutStage { Table: var table, How: var how } when ClutStep.Takes(table, how):
                    ToCodes();
                    steps.Add(new ClutStep(table, how));
                    break;
                case EncodingStage { Encoding: var encoding, Decodes: var decodes } when encoding == PcsEncoding.LabV2:
                    Add(Diagonal(decodes ? 65535.0 / 65280 : 65280.0 / 65535), NoOffset);
                    break;
                case EncodingStage:
                    break; // version 4 and XYZ: already as the steps have them
                case PcsStage { To: ColourSpace.Lab, From: ColourSpace.Xyz }:
                    ToValues();
                    steps.Add(new XyzToLabStep());
                    break;
                case PcsStage { To: ColourSpace.Xyz, From: ColourSpace.Lab }:
                    ToValues();
                    steps.Add(new LabToXyzStep());
                    break;
                case SpreadStage { White: var w } when w == XyzNumber.D50:
                    Add([[w.X / MostXyz], [w.Y / MostXyz], [w.Z / MostXyz]], NoOffset);
                    break;
                case SpreadStage:
                    Add([[1], [0], [0]], [0, 128 / 255.0, 128 / 255.0]); // grey as lightness
                    break;
                case PickStage { Channel: 1, White: var y }:
                    Add([[0, MostXyz / y, 0]], NoOffset);
                    break;
                case PickStage:
                    Add([[1, 0, 0]], NoOffset);
                    break;
                default:
                    ToValues();
                    steps.Add(new WholeStageStep(stage));
                    break;
            }

            channels = stage.Outputs;
        }
    }

    private void Add((SampledCurve? Sampled, Func<double, double> Evaluate)[] curves)
    {
        if (curves.All(c => c.Sampled is not null))
        {
            ToCodes();
            steps.Add(new CodeTableStep([.. curves.Select(c => c.Sampled!)]));
            return;
        }

        Func<float, float>[] functions = [.. curves.Select(c => c.Sampled is { } sampled ? ThroughCodes(CodeTableStep.Of(sampled)) : x => (float)c.Evaluate(x))];
        if (inCodes)
        {
            steps.Add(new ValueTableStep([.. functions.Select(f => Array.ConvertAll(ValueTableStep.Plain, x => f(x)))]));
            inCodes = false;
        }
        else
        {
            steps.Add(new FunctionStep(functions));
        }
    }

    private void Add(double[][] rows, double[] offset)
    {
        ToValues();
        var step = new AffineStep(rows, offset);
        if (step.IsScale && steps is [.., AffineStep { TakesScale: true } before])
        {
            steps[^1] = before.With(step);
        }
        else
        {
            steps.Add(step);
        }
    }

    private void ToCodes()
    {
        if (!inCodes)
        {
            steps.Add(new RoundStep(channels));
            inCodes = true;
        }
    }

    private void ToValues()
    {
        if (!inCodes)
        {
            return;
        }

        inCodes = false;
        if (steps is [.., CodeTableStep curves])
        {
            steps[^1] = new ValueTableStep([.. curves.Tables.Select(t => Array.ConvertAll(t, c => ValueTableStep.Plain[c]))]);
        }
        else
        {
            steps.Add(new ValueTableStep([.. Enumerable.Repeat(ValueTableStep.Plain, channels)]));
        }
    }

    private static Func<float, float> ThroughCodes(ushort[] table) => x => ValueTableStep.Plain[table[RoundStep.Code(x)]];

    private static double[][] Diagonal(double factor) => [[factor, 0, 0], [0, factor, 0], [0, 0, factor]];

    private static double[][] Rows(Matrix3 m, double scale) =>
        [.. Enumerable.Range(0, 3).Select(i => (double[])[m[i, 0] * scale, m[i, 1] * scale, m[i, 2] * scale])];

    /// <summary>What is rare, as the stage itself has it: tables of one or two inputs.</summary>
    private sealed class WholeStageStep(Stage stage) : PixelStep
    {
        /// <inheritdoc/>
        public override void Apply(PixelPlanes pixels)
        {
            Span<double> from = stackalloc double[Stage.MostChannels];
            Span<double> to = stackalloc double[Stage.MostChannels];
            for (var i = 0; i < pixels.Count; i++)
            {
                for (var k = 0; k < stage.Inputs; k++)
                {
                    from[k] = pixels.Values[k][i];
                }

                stage.Apply(from[..stage.Inputs], to[..stage.Outputs]);
                for (var k = 0; k < stage.Outputs; k++)
                {
                    pixels.Values[k][i] = (float)to[k];
                }
            }
        }
    }
}

using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Tests.Icc;

/// <summary>Printers that exist nowhere, by formula, and profiles of them: something to read and to convert with.</summary>
/// <remarks>Crude on purpose. What is tested with them is that two engines agree, not that colours are good.</remarks>
internal static class InventedPrinters
{
    public static readonly XyzNumber Paper = new(0.85, 0.885, 0.715);

    private static readonly DateTimeOffset Day = new(2026, 3, 14, 9, 26, 53, TimeSpan.FromHours(1));

    // Linear light to XYZ relative to the paper: columns add up to D50.
    private static readonly Matrix3 Inks = new(0.42, 0.34, 0.2042, 0.24, 0.62, 0.14, 0.04, 0.11, 0.6749);

    public static PrinterProfile Profile(ColourSpace space, int gridToPcs = 9, int gridFromPcs = 17, double black = 0.004)
    {
        var channels = space.Channels();
        LutTable ToPcs(double darker) => Table(channels, gridToPcs, 3, (device, lab) =>
        {
            Print(space, device, black * darker, lab);
            PcsEncoding.LabV4.Encode(lab, lab);
        });
        LutTable FromPcs(double vivid) => Table(3, gridFromPcs, channels, (code, device) =>
        {
            Span<double> lab = stackalloc double[3];
            PcsEncoding.LabV4.Decode(code, lab);
            Ask(space, [lab[0], lab[1] * vivid, lab[2] * vivid], black, device);
        });

        return new()
        {
            Space = space,
            Created = Day,
            Description = [new("en", "GB", $"Invented {space} printer"), new("fr", "FR", "Imprimante inventée")],
            Copyright = [new("en", "GB", "Invented, free to use")],
            MediaWhite = Paper,
            A2B0 = ToPcs(0.5),
            A2B1 = ToPcs(1),
            A2B2 = ToPcs(1),
            B2A0 = FromPcs(0.9),
            B2A1 = FromPcs(1),
            B2A2 = FromPcs(1.1),
            Gamut = Table(3, 5, 1, (code, value) => value[0] = code[0] > 0.5 ? 0 : 1),
            PerceptualReferenceMedium = true,
            CharTarget = "CGATS.17\nORIGINATOR \"invented\"\n",
            MediaBlack = new(0.01, 0.0104, 0.0086),
            Matte = true,
        };
    }

    private delegate void Node(ReadOnlySpan<double> point, Span<double> value);

    // What the printer prints: L*a*b* relative to its paper.
    private static void Print(ColourSpace space, ReadOnlySpan<double> device, double black, Span<double> lab)
    {
        Span<double> light = stackalloc double[3];
        for (var i = 0; i < 3; i++)
        {
            var value = space switch
            {
                ColourSpace.Grey => device[0],
                ColourSpace.Cmyk => (1 - device[i]) * (1 - (0.97 * device[3])),
                _ => device[i],
            };
            light[i] = black + ((1 - black) * Math.Pow(value, 2.2));
        }

        Span<double> xyz = stackalloc double[3];
        Inks.Apply(light, xyz);
        PcsStage.ToLab(xyz, lab);
    }

    // What to send for a colour.
    private static void Ask(ColourSpace space, ReadOnlySpan<double> lab, double black, Span<double> device)
    {
        Span<double> xyz = stackalloc double[3];
        Span<double> light = stackalloc double[3];
        PcsStage.ToXyz(lab, xyz);
        Inks.Inverse()!.Apply(xyz, light);
        Span<double> rgb = stackalloc double[3];
        for (var i = 0; i < 3; i++)
        {
            rgb[i] = Math.Pow(Math.Clamp((light[i] - black) / (1 - black), 0, 1), 1 / 2.2);
        }

        if (space == ColourSpace.Grey)
        {
            device[0] = rgb[1];
        }
        else if (space == ColourSpace.Rgb)
        {
            rgb.CopyTo(device);
        }
        else
        {
            device[3] = 0.8 * Math.Max(0, 1 - (1.6 * Math.Max(rgb[0], Math.Max(rgb[1], rgb[2]))));
            for (var i = 0; i < 3; i++)
            {
                device[i] = Math.Clamp(1 - (rgb[i] / (1 - (0.97 * device[3]))), 0, 1);
            }
        }
    }

    private static LutTable Table(int inputs, int points, int outputs, Node node)
    {
        var grid = Enumerable.Repeat(points, inputs).ToArray();
        var count = Clut.CountNodes(grid)!.Value;
        var nodes = new ushort[count * outputs];
        Span<double> point = stackalloc double[inputs];
        Span<double> value = stackalloc double[outputs];

        // Curves that are no identity, so that a reader that forgets them is found out.
        var before = Enumerable.Range(0, inputs).Select(i => SampledCurve.Of(257, x => Math.Pow(x, 0.9 + (0.1 * i)))).ToArray();
        var after = Enumerable.Range(0, outputs).Select(i => SampledCurve.Of(129, x => Math.Pow(x, 1 + (0.05 * i)))).ToArray();
        for (var k = 0; k < count; k++)
        {
            for (var (i, rest) = (inputs - 1, k); i >= 0; i--, rest /= points)
            {
                point[i] = before[i].Invert((double)(rest % points) / (points - 1));
            }

            node(point, value);
            for (var i = 0; i < outputs; i++)
            {
                nodes[(k * outputs) + i] = Encoding16.Round(after[i].Invert(value[i]));
            }
        }

        return new(before, new(grid, outputs, nodes), after);
    }
}

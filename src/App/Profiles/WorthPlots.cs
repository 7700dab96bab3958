using Goodsheet.App.Documents;

namespace Goodsheet.App.Profiles;

/// <summary>Draws the plots of what a profile is worth, two or three beside each other, in black alone: lines are told by their dashes and words.</summary>
internal static class WorthPlots
{
    private const double Apart = 6;
    private const double Height = 46;
    private const double Words = 10; // under a plot, and its title above
    private const double Type = 2.9;
    private static readonly double[] Dashes = [0, 5, 2.5, 1.2];

    public static void Draw(Flow flow, WorthRecord worth, ShowGamut.Shape? shape)
    {
        var reach = Math.Ceiling(Math.Max(2, worth.Greys.Max(g => Math.Max(Math.Abs(g[2]), Math.Abs(g[3])))));
        var half = (Flow.Width - Apart) / 2;
        Beside(flow,
            new("Greys before the profile puts them right", half, 0, 100, -reach, reach, "L*, black to paper", "a* whole, b* dashed",
                [.. Enumerable.Range(2, 2).Select(k => (IReadOnlyList<(double, double)>)[.. worth.Greys.Select(g => (g[1], g[k]))])]),
            new("Lightness of equal numbers", half, 0, 100, 0, 100, "%, black to paper", "L*; dashed: even steps",
                [[.. worth.Greys.Select(g => (100 * g[0], g[1]))], [(0, worth.Greys[0][1]), (100, worth.Greys[^1][1])]]));
        var most = Math.Max(1, worth.Histogram.Max());
        var errors = new Plot("How many patches are off by how much", half, 0, worth.Histogram.Count * WorthRecord.BarWidth, 0, most, "dE00, the last bar and beyond", $"up to {most} patches", [], worth.Histogram);
        Beside(flow, worth.Ramps is not { Count: > 0 } ramps ? [errors]
            : [new("Lightness of each ink alone", half, 0, 100, 0, 100, "%, full ink to paper", string.Join(", ", ramps.Select((r, i) => $"{Short(r.Name)} {((string[])["whole", "long", "short", "dotted"])[i]}")),
                [.. ramps.Select(r => (IReadOnlyList<(double, double)>)[.. r.Steps.Select(s => (100 * s[0], s[1]))])]), errors]);
        if (shape is not null)
        {
            Slices(flow, shape);
        }
    }

    private static string Short(string name) => name.IndexOf('(', StringComparison.Ordinal) is var at and >= 0 ? name[(at + 1)..^1] : name.ToLowerInvariant();

    private static void Beside(Flow flow, params IReadOnlyList<Plot> plots)
    {
        flow.Room(Height + Words + 6);
        var left = Flow.Left;
        foreach (var plot in plots)
        {
            Draw(flow.Leaf, plot, left, flow.Y);
            left += plot.Width + Apart;
        }

        flow.Y += Height + Words + 3;
    }

    private static void Draw(Leaf leaf, Plot plot, double left, double top)
    {
        leaf.TypeFitted(plot.Title, left, top, plot.Width, Face.Strong, 3.2, 2.4);
        var (x0, y0, y1) = (left + 9, top + 5, top + 5 + Height - 6);
        var wide = plot.Width - 9;
        double X(double x) => x0 + (wide * (x - plot.X0) / (plot.X1 - plot.X0));
        double Y(double y) => y1 - ((y1 - y0) * (y - plot.Y0) / (plot.Y1 - plot.Y0));
        leaf.Line(x0, y0, x0, y1);
        leaf.Line(x0, y1, x0 + wide, y1);
        if (plot.Y0 < 0)
        {
            leaf.Line(x0, Y(0), x0 + wide, Y(0), 0.1);
            leaf.TypeRight("0", x0 - 1, Y(0) - 1, Face.Text, Type);
        }

        leaf.TypeRight($"{plot.Y1:0}", x0 - 1, y0, Face.Text, Type);
        leaf.TypeRight($"{plot.Y0:0;\u22120}", x0 - 1, y1 - 2, Face.Text, Type);
        leaf.Type($"{plot.X0:0}", x0, y1 + 1, Face.Text, Type);
        leaf.TypeCentred(plot.Along, x0 + (wide / 2), y1 + 1, Face.Text, Type);
        leaf.TypeRight($"{plot.X1:0}", x0 + wide, y1 + 1, Face.Text, Type);
        leaf.TypeFitted(plot.Told, x0, y1 + 5, wide, Face.Text, Type, 2.2);
        for (var i = 0; i < plot.Lines.Count; i++)
        {
            leaf.Through([.. plot.Lines[i].Select(p => (X(p.X), Y(p.Y)))], 0.4, Dashes[i % Dashes.Length]);
        }

        for (var i = 0; i < (plot.Bars?.Count ?? 0); i++)
        {
            var bar = wide / plot.Bars!.Count;
            leaf.Tint(x0 + (i * bar) + 0.2, Y(plot.Bars[i]), bar - 0.4, y1 - Y(plot.Bars[i]), 0.2);
        }
    }

    // Seen from above, all to one scale.
    private static void Slices(Flow flow, ShowGamut.Shape shape)
    {
        var wide = (Flow.Width - (2 * Apart)) / 3;
        flow.Room(wide + 8);
        var reach = Math.Max(10, shape.Slices.SelectMany(s => s.Pieces).Select(p => p.Max(Math.Abs)).DefaultIfEmpty(10).Max());
        for (var i = 0; i < shape.Slices.Count; i++)
        {
            var (left, top) = (Flow.Left + (i * (wide + Apart)), flow.Y + 5);
            var (x, y, scale) = (left + (wide / 2), top + (wide / 2), wide / 2 / reach);
            flow.Leaf.Type($"What it reaches at L* {shape.Slices[i].Lightness}", left, flow.Y, Face.Strong, 3.2);
            flow.Leaf.Line(left, y, left + wide, y, 0.1);
            flow.Leaf.Line(x, top, x, top + wide, 0.1);
            flow.Leaf.TypeRight("a*", left + wide, y + 0.8, Face.Text, Type);
            flow.Leaf.Type("b*", x + 0.8, top, Face.Text, Type);
            foreach (var p in shape.Slices[i].Pieces)
            {
                flow.Leaf.Line(x + (scale * p[0]), y - (scale * p[1]), x + (scale * p[2]), y - (scale * p[3]), 0.4);
            }
        }

        flow.Y += wide + 9;
    }

    private sealed record Plot(
        string Title, double Width, double X0, double X1, double Y0, double Y1, string Along, string Told,
        IReadOnlyList<IReadOnlyList<(double X, double Y)>> Lines, IReadOnlyList<int>? Bars = null);
}

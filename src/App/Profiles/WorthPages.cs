using PdfSharp.Pdf;
using Goodsheet.App.Documents;

namespace Goodsheet.App.Profiles;

/// <summary>Draws what a profile is worth: verdict, figures, plots, worst patches.</summary>
public static class WorthPages
{
    private static readonly double[] Columns = [120, 145, 170];

    /// <param name="title">Which profile.</param>
    /// <param name="how">When it was made, by whom, on what it was judged.</param>
    /// <param name="worth">Its figures.</param>
    /// <param name="shape">What it reaches; none for a profile of other than three channels.</param>
    /// <param name="file">What the document is to be called.</param>
    public static Document Draw(string title, string how, WorthRecord worth, ShowGamut.Shape? shape, string file)
    {
        ArgumentNullException.ThrowIfNull(worth);
        using var document = new PdfDocument();
        document.Info.Title = title;
        using (var flow = new Flow(document, title, title))
        {
            flow.Leaf.TypeFitted(worth.Verdict, Flow.Left, flow.Y, Flow.Width, Face.Strong, 9, 6);
            flow.Y += 12;
            flow.Words(worth.Advice, 4.2);
            flow.Words($"{title}, {how}");
            flow.Rule(0.4);
            foreach (var better in worth.Better)
            {
                flow.Words($"Would make it better: {better}");
            }

            flow.Heading("How far off, dE00");
            Row(flow, Face.Strong, "", "mean", "p95", "worst");
            foreach (var (name, f) in worth.Rows())
            {
                Row(flow, Face.Text, name, $"{f.Mean:0.00}", $"{f.P95:0.00}", $"{f.Max:0.0}");
            }

            flow.Y += 2;
            flow.Words($"Paper white L* {worth.White[0]:0.0}, black L* {worth.Black[0]:0.0}{(worth.Gamut is { } g ? $", gamut {g.Volume:N0} cubic dE*ab, give or take {g.Error:N0}" : "")}. The greys' steps bend by {worth.Bend():0.00} L* at most.");
            Leans(flow, worth);
            flow.Heading("Greys, inks and errors");
            WorthPlots.Draw(flow, worth, shape);
            flow.Heading("Worst patches");
            Row(flow, Face.Strong, "patch, ink values", "measured", "foretold", "dE00");
            foreach (var p in worth.Worst)
            {
                Row(flow, Face.Text, $"{p.Id}   {string.Join(' ', p.Device.Select(d => $"{d * 100:0}"))}", Lab(p.Measured), Lab(p.Foretold), $"{p.Error:0.00}");
            }
        }

        return Document.Of(document, file);
    }

    private static void Leans(Flow flow, WorthRecord worth)
    {
        if (!worth.Leans().Any())
        {
            return;
        }

        flow.Heading("Which way: measured less foretold");
        Row(flow, Face.Strong, "", "L*", "a*", "b*");
        foreach (var (on, patches, lean) in worth.Leans())
        {
            Row(flow, Face.Text, $"{on}, {patches} patches", [.. lean.Select(v => v.ToString("+0.00;\u22120.00;0.00", null))]);
        }

        flow.Y += 2;
    }

    private static void Row(Flow flow, Face face, string name, params string[] cells)
    {
        flow.Room(5);
        flow.Leaf.TypeFitted(name, Flow.Left, flow.Y, 76, face, 3.4, 2.6);
        for (var i = 0; i < cells.Length; i++)
        {
            flow.Leaf.TypeRight(cells[i], Columns[i], flow.Y, face, 3.2);
        }

        flow.Y += 4.6;
    }

    private static string Lab(double[] lab) => $"{lab[0]:0} {lab[1]:0} {lab[2]:0}";
}

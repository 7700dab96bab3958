using Goodsheet.App.Documents;
using Goodsheet.Colour.Charts;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.App.Profiles;

/// <summary>A filled rectangle on a sheet of a chart.</summary>
/// <param name="X">From the left edge, mm.</param>
/// <param name="Y">From the upper edge, mm.</param>
/// <param name="Width">In mm.</param>
/// <param name="Height">In mm.</param>
/// <param name="Device">Device values, 0 to 1.</param>
internal sealed record ChartBox(double X, double Y, double Width, double Height, IReadOnlyList<double> Device);

/// <summary>A line of capitals on a sheet of a chart, its upper left corner in mm.</summary>
internal sealed record ChartText(double X, double Y, string Words);

/// <summary>Where everything lies on a sheet of a chart: patches, marks in the corners, letters of strips, name and code.</summary>
internal sealed record ChartLayout(DeviceSpace Space, double WidthMm, double HeightMm, IReadOnlyList<ChartBox> Boxes, IReadOnlyList<ChartText> Texts)
{
    /// <summary>How high letters are, mm.</summary>
    public const double LetterMm = 2.8;

    private const double MarkAtMm = 6;
    private const double MarkMm = 4;
    private const double CodeMm = 13;

    public static ChartLayout Of(Chart chart, int sheet, string name)
    {
        var (page, black) = (chart.Sheet, Black(chart.Space));
        List<ChartBox> boxes = page.Band ? [] : [.. Marks(page, black)];
        var texts = new List<ChartText>();
        foreach (var (patch, i) in chart.Patches.Skip(sheet * page.Patches).Take(page.Patches).Select((p, i) => (p, i)))
        {
            var (strip, place) = (i / page.PatchesInStrip, i % page.PatchesInStrip);
            var top = page.FirstStripMm + (strip * (page.PatchAcrossMm + page.GapMm));
            boxes.Add(new(page.LeftMm + (place * (page.PatchAlongMm + page.GapMm)), top, page.PatchAlongMm, page.PatchAcrossMm, patch.Device));
            if (place == 0 && !page.Band)
            {
                texts.Add(new(ChartSheet.MarginMm, top + ((page.PatchAcrossMm - LetterMm) / 2), patch.Place[..^1]));
            }
        }

        var words = page.Band ? name : $"{name} - sheet {sheet + 1} of {chart.Sheets}";
        texts.Add(new(page.Band ? page.LeftMm : ChartSheet.MarginMm + MarkMm, page.NameAtMm, words));
        if (!page.Band)
        {
            boxes.AddRange(Code(page, words, black));
        }

        return new(chart.Space, page.WidthMm, page.HeightMm, boxes, texts);
    }

    public static IReadOnlyList<double> Black(DeviceSpace space) => space switch
    {
        DeviceSpace.Grey => [0],
        DeviceSpace.Rgb => [0, 0, 0],
        _ => [0, 0, 0, 1],
    };

    // The upper left mark is a corner, so that a sheet tells which way up it is; the others are full.
    private static IEnumerable<ChartBox> Marks(ChartSheet page, IReadOnlyList<double> black)
    {
        foreach (var x in (double[])[MarkAtMm, page.WidthMm - MarkAtMm - MarkMm])
        {
            foreach (var y in (double[])[MarkAtMm, page.HeightMm - MarkAtMm - MarkMm])
            {
                if (x > MarkAtMm || y > MarkAtMm)
                {
                    yield return new(x, y, MarkMm, MarkMm, black);
                }
                else
                {
                    yield return new(x, y, MarkMm, MarkMm / 4, black);
                    yield return new(x, y, MarkMm / 4, MarkMm, black);
                }
            }
        }
    }

    // In the lower margin, right of the name: which sheet of which chart, for a phone.
    private static IEnumerable<ChartBox> Code(ChartSheet page, string words, IReadOnlyList<double> black)
    {
        var code = QrCode.Of($"Goodsheet chart {words}");
        var module = CodeMm / (code.Size + (2 * QrCode.QuietZone));
        var (left, top) = (page.WidthMm - ChartSheet.MarginMm - CodeMm, page.HeightMm - MarkAtMm - CodeMm);
        foreach (var (x, y, length) in code.Stretches())
        {
            yield return new(left + ((x + QrCode.QuietZone) * module), top + ((y + QrCode.QuietZone) * module), length * module, module, black);
        }
    }
}

namespace Goodsheet.Imaging;

/// <summary>The border: paper, and fine marks to cut along.</summary>
internal sealed class PrintFrame(PrintRecipe recipe, int channels)
{
    private const double MarkMm = 0.15;
    private const double MarkLengthMm = 4;
    private const double LeastBorderForMarksMm = 3;

    private readonly ushort paper = (ushort)(channels == 4 ? 0 : ushort.MaxValue);
    private readonly bool marks = recipe.TrimMarks && recipe.BorderMm >= LeastBorderForMarksMm;
    private readonly int thick = Math.Max(1, recipe.Pixels(MarkMm));
    private readonly int length = Math.Min(recipe.Pixels(MarkLengthMm), recipe.BorderPixels * 3 / 4);

    public void Sides(Span<ushort> line) => line.Fill(paper);

    public void Border(int y, Span<ushort> line)
    {
        line.Fill(paper);
        if (!marks)
        {
            return;
        }

        var (border, right, bottom) = (recipe.BorderPixels, recipe.FullWidth - recipe.BorderPixels, recipe.FullHeight - recipe.BorderPixels);
        var below = y >= bottom;
        var away = below ? y - bottom : border - 1 - y;
        // Upright strokes beside the picture's corners, ending a little before it.
        if (away >= border / 4 && away < (border / 4) + length)
        {
            Mark(line, border, thick);
            Mark(line, right - thick, thick);
        }
    }

    private void Mark(Span<ushort> line, int from, int count)
    {
        for (var x = Math.Max(0, from); x < Math.Min(recipe.FullWidth, from + count); x++)
        {
            for (var k = 0; k < channels; k++)
            {
                line[(x * channels) + k] = (ushort)(channels == 4 ? (k == 3 ? ushort.MaxValue : 0) : 0);
            }
        }
    }
}

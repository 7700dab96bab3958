namespace Goodsheet.Imaging;

/// <summary>The border: paper, fine marks to cut along, and where a wrap is folded shorter ones.</summary>
internal sealed class PrintFrame
{
    private const double MarkMm = 0.15;
    private const double MarkLengthMm = 4;
    private const double LeastBorderForMarksMm = 3;

    private readonly PrintRecipe recipe;
    private readonly int channels;
    private readonly ushort paper;
    private readonly List<(int X, int Y, int Width, int Height)> marks = [];

    public PrintFrame(PrintRecipe recipe, int channels)
    {
        (this.recipe, this.channels) = (recipe, channels);
        paper = PaperOf(channels);
        if (recipe.TrimMarks && recipe.BorderMm >= LeastBorderForMarksMm)
        {
            var length = Math.Min(recipe.Pixels(MarkLengthMm), recipe.BorderPixels * 3 / 4);
            Corners(recipe.BorderPixels, length);
            if (recipe.WrapPixels > 0)
            {
                Corners(recipe.BorderPixels + recipe.WrapPixels, length / 2);
            }
        }
    }

    /// <summary>The code of a channel where no ink goes.</summary>
    public static ushort PaperOf(int channels) => (ushort)(channels == 4 ? 0 : ushort.MaxValue);

    /// <summary>A row above or below the picture.</summary>
    public void Border(int y, Span<ushort> line)
    {
        line.Fill(paper);
        Draw(y, line);
    }

    /// <summary>What is left and right of the picture in a row.</summary>
    public void Sides(int y, Span<ushort> line)
    {
        var side = recipe.BorderPixels * channels;
        line[..side].Fill(paper);
        line[^side..].Fill(paper);
        Draw(y, line);
    }

    // Strokes in line with the edges of what is so far inside, all in the border and ending a little before the picture.
    private void Corners(int inside, int length)
    {
        var (border, thick) = (recipe.BorderPixels, Math.Max(1, recipe.Pixels(MarkMm)));
        var gap = border / 4;
        var (right, bottom) = (recipe.FullWidth - border, recipe.FullHeight - border);
        foreach (var x in (int[])[inside, recipe.FullWidth - inside - thick])
        {
            marks.Add((x, border - gap - length, thick, length));
            marks.Add((x, bottom + gap, thick, length));
        }

        foreach (var y in (int[])[inside, recipe.FullHeight - inside - thick])
        {
            marks.Add((border - gap - length, y, length, thick));
            marks.Add((right + gap, y, length, thick));
        }
    }

    private void Draw(int y, Span<ushort> line)
    {
        foreach (var mark in marks)
        {
            if (y >= mark.Y && y < mark.Y + mark.Height)
            {
                for (var x = Math.Max(0, mark.X); x < Math.Min(recipe.FullWidth, mark.X + mark.Width); x++)
                {
                    var pixel = line.Slice(x * channels, channels);
                    pixel.Clear();
                    if (channels == 4)
                    {
                        pixel[3] = ushort.MaxValue;
                    }
                }
            }
        }
    }
}

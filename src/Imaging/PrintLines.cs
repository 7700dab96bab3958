namespace Goodsheet.Imaging;

/// <summary>Rows of a picture as rows of the whole print: in the printer's colours, with what goes around them. For one thread.</summary>
internal sealed class PrintLines
{
    private readonly PrintRecipe recipe;
    private readonly PrintFrame frame;
    private readonly RowColours convert;
    private readonly int length;
    private readonly ushort[] lines;

    public PrintLines(PrintRecipe recipe, PrintFrame frame, RowColours convert)
    {
        (this.recipe, this.frame, this.convert) = (recipe, frame, convert);
        length = recipe.FullWidth * convert.Outputs;
        lines = new ushort[SizedRows.RowsTogether * length];
    }

    /// <summary>Writes rows in all the places where they are seen.</summary>
    /// <param name="y">The first, in the picture.</param>
    /// <param name="count">How many, at most <see cref="SizedRows.RowsTogether"/>.</param>
    /// <param name="codes">In the picture's own colours.</param>
    /// <param name="tiff">Where to.</param>
    public void Write(int y, int count, ReadOnlySpan<ushort> codes, TiffStrips tiff)
    {
        var (wrap, top, width) = (recipe.WrapPixels, recipe.BorderPixels + recipe.WrapPixels, recipe.PictureWidth);
        for (var row = 0; row < count; row++)
        {
            var line = lines.AsSpan(row * length, length);
            convert.Convert(codes.Slice(row * width * convert.Inputs, width * convert.Inputs), line.Slice(top * convert.Outputs, width * convert.Outputs));
            Wrap(line.Slice(recipe.BorderPixels * convert.Outputs, (width + (2 * wrap)) * convert.Outputs));
            frame.Sides(top + y + row, line);
        }

        tiff.WriteAt(top + y, lines.AsSpan(0, count * length));
        for (var row = 0; row < count && recipe.WrapAs is not WrapKind.Plain; row++)
        {
            var (above, below) = (recipe.WrapStretch * (y + row), recipe.WrapStretch * (recipe.PictureHeight - 1 - y - row));
            for (var further = 0; further < recipe.WrapStretch; further++)
            {
                if (above + further < wrap)
                {
                    Again(top - 1 - above - further);
                }

                if (below + further < wrap)
                {
                    Again(top + recipe.PictureHeight + below + further);
                }
            }

            void Again(int at)
            {
                var line = lines.AsSpan(row * length, length);
                frame.Sides(at, line);
                tiff.WriteAt(at, line);
            }
        }
    }

    // On both sides of the row in the middle: the row mirrored, drawn out, or bare paper.
    private void Wrap(Span<ushort> line)
    {
        var (wrap, channels) = (recipe.WrapPixels, convert.Outputs);
        if (recipe.WrapAs is WrapKind.Plain)
        {
            line[..(wrap * channels)].Fill(PrintFrame.PaperOf(channels));
            line[^(wrap * channels)..].Fill(PrintFrame.PaperOf(channels));
            return;
        }

        var row = line[(wrap * channels)..^(wrap * channels)];
        for (var x = 0; x < wrap; x++)
        {
            var from = x / recipe.WrapStretch;
            row.Slice(from * channels, channels).CopyTo(line[((wrap - 1 - x) * channels)..]);
            row.Slice(row.Length - ((from + 1) * channels), channels).CopyTo(line[(((wrap + x) * channels) + row.Length)..]);
        }
    }
}

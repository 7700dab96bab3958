using Goodsheet.Room.Units;

namespace Goodsheet.Room.Layout;

/// <summary>One tile of a print, on the whole of it from its upper left corner.</summary>
/// <param name="Number">From 1, row by row.</param>
/// <param name="Column">From 1.</param>
/// <param name="Row">From 1.</param>
/// <param name="X">Where its picture begins, overlap and all.</param>
/// <param name="Y">Where its picture begins.</param>
/// <param name="Width">Of its picture.</param>
/// <param name="Height">Of its picture.</param>
/// <param name="Left">Where it is trimmed, on the whole print.</param>
/// <param name="Top">Where it is trimmed.</param>
/// <param name="Right">Where it is trimmed.</param>
/// <param name="Bottom">Where it is trimmed.</param>
public readonly record struct Tile(
    int Number, int Column, int Row, Length X, Length Y, Length Width, Length Height, Length Left, Length Top, Length Right, Length Bottom);

/// <summary>A print that is larger than its paper, parted into as few tiles as go, of one size, that overlap. Trimmed in the middle of each overlap they make exactly the whole.</summary>
/// <param name="Width">Of the whole.</param>
/// <param name="Height">Of the whole.</param>
/// <param name="Overlap">The least that two neighbours share.</param>
/// <param name="Margin">Bare paper around each tile, for the marks and for what the printer does not reach.</param>
/// <param name="Turned">Tiles lie on the paper turned by a quarter.</param>
/// <param name="Columns">How many beside one another.</param>
/// <param name="Rows">How many above one another.</param>
/// <param name="Tiles">Row by row.</param>
public sealed record Tiling(
    Length Width, Length Height, Length Overlap, Length Margin, bool Turned, int Columns, int Rows, IReadOnlyList<Tile> Tiles)
{
    /// <summary>More are no print any more.</summary>
    public const int Most = 100;

    /// <summary>What there is of a roll for one tile: longer ones are not handled.</summary>
    public static readonly Length LongestOnRoll = Length.FromMillimetres(5_000);

    private static readonly Length LeastPicture = Length.FromMillimetres(50);

    /// <summary>Parts a print.</summary>
    /// <param name="width">Of the picture on paper.</param>
    /// <param name="height">Of the picture on paper.</param>
    /// <param name="paperWidth">Across the feed.</param>
    /// <param name="paperLength">Along the feed; none for a roll.</param>
    /// <param name="margin">Bare paper on each side of a tile.</param>
    /// <param name="overlap">The least that two tiles share, 0 for none.</param>
    public static Outcome<Tiling> Of(Length width, Length height, Length paperWidth, Length? paperLength, Length margin, Length overlap)
    {
        if (width <= Length.Zero || height <= Length.Zero || overlap < Length.Zero || margin < Length.Zero)
        {
            return new CannotBe();
        }

        var (across, along) = (paperWidth - margin - margin, (paperLength ?? LongestOnRoll) - margin - margin);
        var least = overlap + LeastPicture;
        if (across < least || along < least)
        {
            return new TooNarrow(paperWidth, margin, overlap);
        }

        var upright = (Turned: false, Columns: Count(width, across, overlap), Rows: Count(height, along, overlap));
        var lying = (Turned: true, Columns: Count(width, along, overlap), Rows: Count(height, across, overlap));
        var (turned, columns, rows) = lying.Columns * lying.Rows < upright.Columns * upright.Rows ? lying : upright;
        if (columns * rows > Most)
        {
            return new TooMany(columns * rows);
        }

        var (xs, ys) = (Parts(width, columns, overlap), Parts(height, rows, overlap));
        return new Tiling(width, height, overlap, margin, turned, columns, rows,
        [
            .. from row in Enumerable.Range(0, rows)
               from column in Enumerable.Range(0, columns)
               let x = xs[column]
               let y = ys[row]
               select new Tile((row * columns) + column + 1, column + 1, row + 1, x.At, y.At, x.Size, y.Size, x.From, y.From, x.To, y.To),
        ]);
    }

    /// <summary>What the paper of a tile measures across the feed and along it.</summary>
    public (Length Across, Length Along) PaperOf(Tile tile)
    {
        var (width, height) = (tile.Width + Margin + Margin, tile.Height + Margin + Margin);
        return Turned ? (height, width) : (width, height);
    }

    private static int Count(Length whole, Length part, Length overlap) => whole <= part ? 1
        : (int)Math.Min(int.MaxValue / 2_000, ((whole - overlap).Micrometres + (part - overlap).Micrometres - 1) / (part - overlap).Micrometres);

    // Parts of one size whose steps are whole micrometres; the last ends where the whole does.
    private static (Length At, Length Size, Length From, Length To)[] Parts(Length whole, int count, Length overlap)
    {
        var (all, shared) = (whole.Micrometres, overlap.Micrometres);
        var size = (all + ((count - 1) * shared) + count - 1) / count;
        long At(int i) => count == 1 ? 0 : i * (all - size) / (count - 1);
        long Seam(int i) => i == 0 ? 0 : i == count ? all : (At(i) + At(i - 1) + size) / 2;
        return [.. Enumerable.Range(0, count).Select(i => (Um(At(i)), Um(size), Um(Seam(i)), Um(Seam(i + 1))))];
    }

    private static Length Um(long micrometres) => Length.FromMicrometres(micrometres);

    public sealed record CannotBe() : Refusal("A print is wider and higher than nothing, and an overlap is 0 or more.");

    public sealed record TooNarrow(Length Paper, Length Margin, Length Overlap)
        : Refusal($"Paper of {Paper.Millimetres:0.#} mm leaves less than {LeastPicture.Millimetres:0} mm of picture beside margins of {Margin.Millimetres:0.#} mm and an overlap of {Overlap.Millimetres:0.#} mm. Take wider paper, or a smaller overlap.");

    public sealed record TooMany(int Tiles) : Refusal($"That would be {Tiles} tiles, more than the {Most} one print is parted into. Take wider paper.");
}

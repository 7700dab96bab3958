using System.Globalization;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.Bench.Layout;

/// <summary>Published instances, read from the development data that stands beside the project.</summary>
internal sealed record Instance(string Name, long Width, long Height, IReadOnlyList<Piece> Pieces, IReadOnlyList<int> Profits)
{
    public static string Folder => Path.Combine("..", "shared", "data", "nesting");

    public Int128 Area => Pieces.Aggregate((Int128)0, (sum, p) => sum + ((Int128)p.Width.Micrometres * p.Height.Micrometres * p.Copies));

    /// <summary>One unit of the instance is read as a micrometre.</summary>
    public static IReadOnlyList<Instance> Read(string file, bool mayTurn) =>
    [
        .. File.ReadLines(Path.Combine(Folder, file)).Skip(1).Select(l => l.Split(',')).GroupBy(f => f[0]).Select(g => new Instance(
            g.Key, Number(g.First()[1]), Number(g.First()[2]),
            [.. g.Select(f => new Piece(f[3], Length.FromMicrometres(Number(f[4])), Length.FromMicrometres(Number(f[5])), (int)Number(f[6]), mayTurn))],
            [.. g.Select(f => f[7].Length == 0 ? 0 : (int)Number(f[7]))])),
    ];

    private static long Number(string text) => long.Parse(text, CultureInfo.InvariantCulture);
}

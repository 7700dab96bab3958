using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.Bench.Layout;

/// <summary>The same pieces in five other orders, and the same pieces with more and more time: neither may cost more.</summary>
internal static class Shuffled
{
    private const int Orders = 5;
    private const int Turns = 20_000;
    private static readonly double[] Seconds = [.25, .5, 1, 2];

    public static void Run()
    {
        var sample = Sample().ToArray();
        Console.WriteLine($"\n## Shuffled {Orders} times, {Turns} turns each, and the same seed with more time\n");
        Console.WriteLine($"| instance | pieces | as listed | shuffled | {string.Join(" | ", Seconds.Select(s => $"{s} s"))} |\n|---|---|---|---|{string.Concat(Seconds.Select(_ => "---|"))}");
        var (dearer, worse) = (0, 0);
        foreach (var (one, stock) in sample)
        {
            var listed = Cost(one.Pieces, stock);
            var shuffled = Enumerable.Range(1, Orders).Select(seed =>
            {
                var pieces = one.Pieces.ToArray();
                new Random(seed).Shuffle(pieces);
                return Cost(pieces, stock);
            }).ToArray();
            var longer = Seconds.Select(s => LayoutBench.Pack(one, stock, s).Cost).ToArray();
            (dearer, worse) = (dearer + shuffled.Count(c => c != listed), worse + longer.Zip(longer.Skip(1)).Count(p => p.Second > p.First));
            Console.WriteLine($"| {one.Name} | {one.Pieces.Count} | {listed} | {string.Join(' ', shuffled)} | {string.Join(" | ", longer)} |");
        }

        Console.WriteLine($"\n{sample.Length} instances: {dearer} of {Orders * sample.Length} shuffled lists cost otherwise (tolerance 0); more time was worse {worse} times");
    }

    private static long Cost(IReadOnlyList<Piece> pieces, Stock stock)
    {
        var nest = NestPacker.Pack(pieces, stock, 1, turn => turn >= Turns).Value ?? throw new InvalidOperationException("Refused.");
        var faults = LayoutVerifier.Check(nest);
        return faults.Count == 0 ? nest.Cost : throw new InvalidOperationException(string.Join(' ', faults));
    }

    private static IEnumerable<(Instance One, Stock Stock)> Sample() =>
    [
        .. Instance.Read("strip-hopper-turton.csv", true).Where((_, i) => i % 4 == 0).Select(i => (i, Stock.Roll(Length.FromMicrometres(i.Width)))),
        .. Instance.Read("strip-hopper-t-n.csv", false).Where((_, i) => i % 9 == 3).Select(i => (i, Stock.Roll(Length.FromMicrometres(i.Width)))),
        .. Instance.Read("bins-berkey-wang.csv", true).Concat(Instance.Read("bins-martello-vigo.csv", false)).Where((_, i) => i % 50 == 7)
            .Select(i => (i, Stock.Sheet(Length.FromMicrometres(i.Width), Length.FromMicrometres(i.Height)))),
    ];
}

using CsCheck;
using Goodsheet.Room.Layout;
using static Goodsheet.Room.Tests.Layout.NestPackerTest;

namespace Goodsheet.Room.Tests.Layout;

/// <summary>Where there are few pieces, every way to cut them is tried, so what is found is the best.</summary>
public class FewPiecesTest
{
    private const int Enough = 1_000_000; // more turns than any of these takes

    private static readonly Gen<Piece[]> Few =
        Gen.Select(Gen.Int[1, 40], Gen.Int[1, 40], Gen.Bool, (w, h, turn) => new Piece($"{w}x{h}", Mm(w), Mm(h), 1, turn)).Array[2, 5];

    [Fact]
    public void A_strip_of_few_pieces_is_as_short_as_the_shortest_of_all_trees() => Few.Sample(pieces =>
    {
        var nest = Packed((pieces, Stock.Roll(Mm(60))), Enough);
        Assert.True(nest.IsBest);
        Assert.Empty(LayoutVerifier.Check(nest));
        Assert.Equal(
            Rectangles(pieces, (1 << pieces.Length) - 1).Where(r => r.Width <= 60).Min(r => r.Height), (int)nest.RollUsed.Millimetres);
    }, iter: 60);

    [Fact]
    public void Few_pieces_take_as_few_sheets_as_there_can_be() => Few.Sample(pieces =>
    {
        var nest = Packed((pieces, Stock.Sheet(Mm(50), Mm(45))), Enough);
        Assert.True(nest.IsBest);
        Assert.Empty(LayoutVerifier.Check(nest));
        Assert.Equal(Sheets(pieces, (1 << pieces.Length) - 1), (int)nest.Cost);
    }, iter: 40);

    [Fact]
    public void Many_copies_of_few_sizes_are_few_pieces()
    {
        var nest = Packed(([new("A4", Mm(210), Mm(297), 12), new("A3", Mm(297), Mm(420), 7), new("square", Mm(300), Mm(300), 4)], Stock.Roll(Mm(610))), Enough);
        Assert.True(nest.IsBest);
        Assert.Empty(LayoutVerifier.Check(nest));
    }

    /// <summary>
    /// C1, problem 1 of 16 pieces, optimum 20: E. Hopper, B. C. H. Turton, "An empirical investigation of meta-heuristic and
    /// heuristic algorithms for a 2D packing problem", EJOR 128(1), 2001, its sizes as converted in packingsolver (MIT).
    /// </summary>
    [Fact]
    public void The_first_strip_of_Hopper_and_Turton_is_cut_without_loss()
    {
        (int W, int H)[] sizes =
        [
            (2, 12), (7, 12), (8, 6), (3, 6), (3, 5), (5, 5), (3, 12), (3, 7),
            (5, 7), (2, 6), (3, 2), (4, 2), (3, 4), (4, 4), (9, 2), (11, 2),
        ];
        var nest = Packed(([.. sizes.Select(s => new Piece("", Mm(s.W), Mm(s.H)))], Stock.Roll(Mm(20))), Enough);
        Assert.Equal(20, nest.RollUsed.Millimetres);
        Assert.True(nest.IsBest);
        Assert.Empty(LayoutVerifier.Check(nest));
    }

    /// <summary>All rectangles that some tree makes of a set of pieces: without any thought for what is too large.</summary>
    private static HashSet<(int Width, int Height)> Rectangles(Piece[] pieces, int set)
    {
        var made = new HashSet<(int, int)>();
        if ((set & (set - 1)) == 0)
        {
            var piece = pieces[int.TrailingZeroCount(set)];
            var (w, h) = ((int)piece.Width.Millimetres, (int)piece.Height.Millimetres);
            made.Add((w, h));
            if (piece.MayTurn)
            {
                made.Add((h, w));
            }
        }

        for (var part = (set - 1) & set; part > 0; part = (part - 1) & set)
        {
            foreach (var (w1, h1) in Rectangles(pieces, part))
            {
                foreach (var (w2, h2) in Rectangles(pieces, set & ~part))
                {
                    made.Add((w1 + w2, Math.Max(h1, h2)));
                    made.Add((Math.Max(w1, w2), h1 + h2));
                }
            }
        }

        return made;
    }

    private static int Sheets(Piece[] pieces, int set)
    {
        var fewest = Rectangles(pieces, set).Any(r => r.Width <= 50 && r.Height <= 45) ? 1 : int.MaxValue;
        for (var part = (set - 1) & set; part > 0 && fewest > 1; part = (part - 1) & set)
        {
            fewest = Math.Min(fewest, Sheets(pieces, part) + Sheets(pieces, set & ~part));
        }

        return fewest;
    }
}

using CsCheck;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Tests.Layout;

public class NestPackerTest
{
    private const int Short = 60;
    private const int Longer = 400;

    internal static readonly Gen<Piece> AnyPiece =
        Gen.Select(Gen.Int[1, 60], Gen.Int[1, 60], Gen.Int[1, 4], Gen.Bool, (w, h, n, turn) => new Piece($"{w}x{h}", Mm(w), Mm(h), n, turn));

    internal static readonly Gen<(Piece[] Pieces, Stock Stock)> AnyWork = Gen.Select(
        AnyPiece.Array[1, 12], Gen.Int[0, 3], Gen.Int[0, 6], Gen.Bool, (pieces, gutter, margin, roll) =>
        {
            var margins = new Margins(Mm(margin), Mm(margin / 2), Mm(margin), Mm(3 * margin));
            return (pieces, roll ? Stock.Roll(Mm(100), margins, Mm(gutter)) : Stock.Sheet(Mm(100), Mm(120), margins, Mm(gutter)));
        });

    [Fact]
    public void Any_layout_passes_the_verifier() => AnyWork.Sample(work => Assert.Empty(LayoutVerifier.Check(Packed(work, Short))), iter: 300);

    [Fact]
    public void No_layout_is_under_its_bound() => AnyWork.Sample(work =>
    {
        var nest = Packed(work, Short);
        return nest.Cost >= nest.Bound;
    }, iter: 200);

    [Fact]
    public void More_time_is_never_worse_and_the_start_is_never_bettered_away() => AnyWork.Sample(work =>
    {
        var costs = ((int[])[0, Short, Longer]).Select(turns => Packed(work, turns).Cost).ToArray();
        return costs[0] >= costs[1] && costs[1] >= costs[2];
    }, iter: 100);

    [Fact]
    public void The_same_seed_gives_the_same_layout() => AnyWork.Sample(work =>
        Packed(work, Short).Sheets.SelectMany(s => s.Placements).SequenceEqual(Packed(work, Short).Sheets.SelectMany(s => s.Placements)),
        iter: 50);

    [Fact]
    public void A_shuffled_list_costs_the_same() =>
        Gen.Select(AnyWork, Gen.Int).Sample((work, seed) =>
        {
            var shuffled = work.Pieces.ToArray();
            new Random(seed).Shuffle(shuffled);
            var other = Packed((shuffled, work.Stock), Longer);
            Assert.Empty(LayoutVerifier.Check(other));
            Assert.Equal(Packed(work, Longer).Cost, other.Cost);
        }, iter: 50);

    [Fact]
    public void Pieces_offcuts_trim_and_knife_make_up_the_paper() => AnyWork.Sample(work =>
    {
        foreach (var sheet in Packed(work, Short).Sheets)
        {
            var m = work.Stock.Margins;
            var cuts = CutList.Of(work.Stock, sheet);
            var knife = cuts.Aggregate((Int128)0, (sum, c) => sum + ((Int128)c.Knife * (c.Direction is CutDirection.Along ? c.Of.Place.Height : c.Of.Place.Width)));
            var inHand = cuts.SelectMany(c => new[] { c.Near, c.Far }).Append(new(CutList.WholeSheet, new(0, 0, sheet.Width, sheet.Height)))
                .ExceptBy(cuts.Select(c => c.Of.Number), p => p.Number).Select(p => p.Place).ToList();
            Assert.Equal((Int128)sheet.Width * sheet.Height, inHand.Aggregate(knife, (sum, a) => sum + a.Size));

            // What is neither a piece nor left over is a margin and nothing else.
            Assert.All(sheet.Placements.Select(p => p.Place).Concat(CutList.Offcuts(work.Stock, sheet)), a => Assert.True(inHand.Remove(a)));
            Assert.All(inHand.Where(a => a.Size > 0), a => Assert.True(
                a.Right <= Um(m.Left) || a.X >= sheet.Width - Um(m.Right) || a.Bottom <= Um(m.Lead) || a.Y >= sheet.Height - Um(m.Tail)));
        }
    }, iter: 200);

    [Fact]
    public void Squares_that_just_fit_lie_side_by_side_with_their_gutter()
    {
        var nest = Packed(([new("square", Mm(48), Mm(48), 4)], Stock.Roll(Mm(100), default, Mm(4))), Longer);
        Assert.Equal(Um(Mm(100)), nest.Cost);
        Assert.True(nest.IsBest);
    }

    /// <summary>From the project's planning notes: 367 A4 lie on 21 m of a 1117 mm roll. The lower limit is their area over the width, rounded up.</summary>
    [Fact]
    public void Many_pictures_of_one_size_take_the_shortest_roll_there_is()
    {
        var nest = Packed(([new("one", Mm(210), Mm(297), 200), new("other", Mm(210), Mm(297), 167)], Stock.Roll(Mm(1117))), 0);
        Assert.True(nest.IsBest);
        Assert.InRange(nest.RollUsed.Millimetres, 20_493, 21_000);
        Assert.Empty(LayoutVerifier.Check(nest));
    }

    [Fact]
    public void Of_one_size_the_last_sheet_is_cut_no_more_than_needed()
    {
        var nest = Packed(([new("A4", Mm(210), Mm(297), 17)], Stock.Sheet(Mm(594), Mm(841))), 0);
        Assert.Equal([8, 8, 1], nest.Sheets.Select(s => s.Placements.Count));
        Assert.Empty(LayoutVerifier.Check(nest));
    }

    [Fact]
    public void A_hair_less_paper_and_they_do_not()
    {
        var roll = Stock.Roll(Length.FromMicrometres(99_999), default, Mm(4));
        Assert.Equal(Um(Mm(204)), Packed(([new("square", Mm(48), Mm(48), 4)], roll), Longer).Cost);
    }

    [Fact]
    public void A_piece_that_may_not_be_turned_is_refused_where_only_turning_would_help()
    {
        var roll = Stock.Roll(Mm(100));
        Assert.IsType<NestPacker.TooBig>(Pack([new("panorama", Mm(101), Mm(50), 1, MayTurn: false)], roll).Refusal);
        Assert.True(Pack([new("panorama", Mm(101), Mm(50), 1)], roll).Granted);
    }

    [Fact]
    public void A_piece_as_big_as_the_sheet_is_laid_on_it() =>
        Assert.True(Pack([new("whole", Mm(100), Mm(120))], Stock.Sheet(Mm(100), Mm(120), default, Mm(5))).Granted);

    [Fact]
    public void Too_many_pieces_are_refused()
    {
        Assert.True(Pack([new("stamp", Mm(5), Mm(5), NestPacker.MostCopies)], Stock.Roll(Mm(100))).Granted);
        Assert.IsType<NestPacker.NotSoMany>(Pack([new("stamp", Mm(5), Mm(5), NestPacker.MostCopies + 1)], Stock.Roll(Mm(100))).Refusal);
        Assert.IsType<NestPacker.NotSoMany>(Pack([], Stock.Roll(Mm(100))).Refusal);
        Assert.IsType<NestPacker.NotSoMany>(Pack([new("none", Mm(5), Mm(5), 0)], Stock.Roll(Mm(100))).Refusal);
    }

    [Fact]
    public void Nothing_is_laid_on_margins_alone() =>
        Assert.IsType<NestPacker.NothingLeft>(Pack([new("a", Mm(1), Mm(1))], Stock.Roll(Mm(10), new(Mm(5), Mm(5), default, default))).Refusal);

    [Fact]
    public void A_piece_without_a_size_is_refused() =>
        Assert.IsType<NestPacker.NotASize>(Pack([new("flat", Mm(0), Mm(5))], Stock.Roll(Mm(10))).Refusal);

    internal static Length Mm(decimal mm) => Length.FromMillimetres(mm);

    internal static Nest Packed((Piece[] Pieces, Stock Stock) work, int turns)
    {
        var outcome = NestPacker.Pack(work.Pieces, work.Stock, seed: 1, turn => turn >= turns);
        Assert.True(outcome.Granted, outcome.Refusal?.Message);
        return outcome.Value;
    }

    internal static long Um(Length length) => length.Micrometres;

    private static Outcome<Nest> Pack(Piece[] pieces, Stock stock) => NestPacker.Pack(pieces, stock, seed: 1, _ => true);
}

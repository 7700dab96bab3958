using CsCheck;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;
using static Goodsheet.Room.Tests.Layout.NestPackerTest;

namespace Goodsheet.Room.Tests.Layout;

public class AroundHeldTest
{
    private const int Short = 60;

    private static readonly Piece[] Four = [new("tall", Mm(30), Mm(60)), new("flat", Mm(60), Mm(30)), new("card", Mm(20), Mm(20), 4), new("strip", Mm(70), Mm(10), 1, MayTurn: false)];

    private static readonly Stock Sheet = Stock.Sheet(Mm(110), Mm(130), new(Mm(5), Mm(3), Mm(2), Mm(7)), Mm(4));

    [Fact]
    public void What_is_held_stays_and_the_layout_passes_the_verifier()
    {
        var nest = Laid(Sheet, new HeldPiece(0, 0, 40_000, 30_000, false));
        Assert.Contains(nest.Sheets[0].Placements, p => p.Piece == 0 && p.Place == new Area(40_000, 30_000, 30_000, 60_000));
    }

    [Fact]
    public void Anything_that_lies_in_a_layout_may_be_held_there() => Gen.Select(AnyWork, Gen.Int).Sample((work, seed) =>
    {
        var nest = Packed(work, Short);
        var random = new Random(seed);
        var held = nest.Sheets.SelectMany((s, i) => s.Placements.Select(p => new HeldPiece(p.Piece, i, p.Place.X, p.Place.Y, p.Turned)))
            .Where(_ => random.Next(3) == 0).ToArray();
        var outcome = AroundHeld.Lay(work.Pieces, work.Stock, held, 1, turn => turn >= Short);

        // A layout may have a strip beside a piece that is narrower than the knife: that one place cannot be held alone.
        if (!outcome.Granted)
        {
            Assert.True(outcome.Refusal is AroundHeld.OutOfLine or AroundHeld.CannotBeCutApart, outcome.Refusal.Message);
            return;
        }

        Assert.Empty(LayoutVerifier.Check(outcome.Value));
        Assert.All(held, h => Assert.Contains(outcome.Value.Sheets.SelectMany(s => s.Placements), p => p.Piece == h.Piece && p.Place.X == h.X && p.Place.Y == h.Y));
    }, iter: 200);

    [Fact]
    public void Without_a_gutter_any_part_of_a_layout_may_be_held() => Gen.Select(AnyWork, Gen.Int).Sample((work, seed) =>
    {
        work.Stock = work.Stock with { Gutter = Length.Zero };
        var nest = Packed(work, Short);
        var random = new Random(seed);
        var held = nest.Sheets.SelectMany((s, i) => s.Placements.Select(p => new HeldPiece(p.Piece, i, p.Place.X, p.Place.Y, p.Turned)))
            .Where(_ => random.Next(2) == 0).ToArray();
        var outcome = AroundHeld.Lay(work.Pieces, work.Stock, held, 1, turn => turn >= Short);
        Assert.True(outcome.Granted, outcome.Refusal?.Message);
        Assert.Empty(LayoutVerifier.Check(outcome.Value));
    }, iter: 200);

    [Fact]
    public void Nothing_is_held_over_a_margin()
    {
        Assert.IsType<AroundHeld.OverTheEdge>(Lay(Sheet, new HeldPiece(0, 0, 4_999, 30_000, false)).Refusal);
        Assert.True(Lay(Sheet, new HeldPiece(0, 0, 5_000, 30_000, false)).Granted);
        Assert.True(Lay(Sheet, new HeldPiece(0, 0, 77_000, 30_000, false)).Granted);
        Assert.IsType<AroundHeld.OverTheEdge>(Lay(Sheet, new HeldPiece(0, 0, 77_001, 30_000, false)).Refusal);
        Assert.IsType<AroundHeld.OverTheEdge>(Lay(Sheet, new HeldPiece(0, 0, 30_000, 63_001, false)).Refusal);
        Assert.True(Lay(Sheet, new HeldPiece(0, 0, 30_000, 63_000, false)).Granted);
    }

    [Fact]
    public void Two_that_are_held_keep_the_gutter()
    {
        var one = new HeldPiece(0, 0, 5_000, 2_000, false);
        Assert.IsType<AroundHeld.TooNearTogether>(Lay(Sheet, one, new HeldPiece(2, 0, 38_999, 2_000, false)).Refusal);
        Assert.True(Lay(Sheet, one, new HeldPiece(2, 0, 39_000, 2_000, false)).Granted);
    }

    [Fact]
    public void A_piece_with_a_direction_is_not_held_turned() =>
        Assert.IsType<AroundHeld.MayNotBeTurned>(Lay(Sheet, new HeldPiece(3, 0, 5_000, 2_000, true)).Refusal);

    [Fact]
    public void Four_around_a_middle_cannot_be_cut_apart()
    {
        Piece[] pieces = [new("one", Mm(60), Mm(30), 4)];
        HeldPiece[] wheel =
        [
            new(0, 0, 0, 0, false), new(0, 0, 64_000, 0, true), new(0, 0, 34_000, 64_000, false), new(0, 0, 0, 34_000, true),
        ];
        var outcome = AroundHeld.Lay(pieces, Stock.Sheet(Mm(94), Mm(94), default, Mm(4)), wheel, 1, _ => true);
        Assert.IsType<AroundHeld.CannotBeCutApart>(outcome.Refusal);
        Assert.True(AroundHeld.Lay(pieces, Stock.Sheet(Mm(94), Mm(94), default, Mm(4)), wheel[..2], 1, _ => true).Granted);
    }

    [Fact]
    public void A_second_sheet_holds_what_is_held_there() =>
        Assert.Contains(Laid(Sheet, new HeldPiece(1, 1, 5_000, 2_000, false)).Sheets[0].Placements, p => p.Piece == 1);

    [Fact]
    public void On_a_roll_what_is_free_before_it_is_filled_first()
    {
        var nest = Laid(Stock.Roll(Mm(110), default, Mm(4)), new HeldPiece(0, 0, 0, 100_000, false));
        Assert.Equal(160, nest.RollUsed.Millimetres);
    }

    private static Outcome<Nest> Lay(Stock stock, params HeldPiece[] held) => AroundHeld.Lay(Four, stock, held, 1, turn => turn >= Short);

    private static Nest Laid(Stock stock, params HeldPiece[] held)
    {
        var outcome = Lay(stock, held);
        Assert.True(outcome.Granted, outcome.Refusal?.Message);
        Assert.Empty(LayoutVerifier.Check(outcome.Value));
        return outcome.Value;
    }
}

using CsCheck;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Tests.Layout;

public class BestYieldTest
{
    /// <summary>From the project's planning notes, marked recomputed there; A4 is 210 × 297 mm (ISO 216).</summary>
    [Theory]
    [InlineData(1117, 1000, 0, 16)]
    [InlineData(1117, 2000, 0, 34)]
    [InlineData(1117, 5000, 0, 86)]
    [InlineData(1117, 1000, 5, 16)]
    [InlineData(1117, 2000, 5, 33)]
    [InlineData(1117, 5000, 5, 85)]
    [InlineData(594, 841, 0, 8)]
    [InlineData(594, 841, 5, 5)]
    public void A4_from_a_roll_and_from_A1(int width, int height, int gutter, int sheets) =>
        Assert.Equal(sheets, Find([new("A4", Mm(210), Mm(297))], [1], width, height, gutter).Value);

    /// <summary>
    /// gcut1: J. E. Beasley, "Algorithms for unconstrained two-dimensional guillotine cutting", JORS 36(4), 1985, its
    /// pieces and fixed optimum as carried by OR-Library and packingsolver (MIT); turned as in the project's data table.
    /// </summary>
    [Theory]
    [InlineData(false, 56460)]
    [InlineData(true, 58136)]
    public void Gcut1_of_Beasley(bool mayTurn, int optimum)
    {
        (int W, int H)[] sizes = [(167, 184), (114, 118), (167, 152), (83, 140), (70, 86), (143, 166), (120, 160), (66, 148), (87, 141), (69, 165)];
        Assert.Equal(optimum, Find([.. sizes.Select(s => new Piece("", Mm(s.W), Mm(s.H), 1, mayTurn))], [.. sizes.Select(s => s.W * s.H)], 250, 250, 0).Value);
    }

    [Fact]
    public void What_is_found_is_what_trying_every_cut_finds() =>
        Gen.Select(
            Gen.Select(Gen.Int[1, 7], Gen.Int[1, 7], Gen.Int[1, 50], Gen.Bool).Array[1, 4], Gen.Int[1, 11], Gen.Int[1, 11]).Sample((rows, w, h) =>
        {
            Piece[] pieces = [.. rows.Select(r => new Piece("", Mm(r.Item1), Mm(r.Item2), 1, r.Item4))];
            int[] values = [.. rows.Select(r => r.Item3)];
            Assert.Equal(EveryCut(pieces, values, w, h, []), Find(pieces, values, w, h, 0).Value);
        }, iter: 300);

    [Fact]
    public void The_cuts_give_what_the_value_says() =>
        Gen.Select(
            Gen.Select(Gen.Int[20, 90], Gen.Int[20, 90], Gen.Int[1, 50], Gen.Bool).Array[1, 5], Gen.Int[10, 300], Gen.Int[10, 300], Gen.Int[0, 5]).Sample((rows, w, h, gutter) =>
        {
            Piece[] pieces = [.. rows.Select(r => new Piece("", Mm(r.Item1), Mm(r.Item2), 1, r.Item4))];
            int[] values = [.. rows.Select(r => r.Item3)];
            var found = Find(pieces, values, w, h, gutter);
            var stock = Stock.Sheet(Mm(w), Mm(h), default, Mm(gutter));
            var sheet = CutSheet.Of(stock, Mm(h).Micrometres, found.Tree);
            Piece[] cut = [.. pieces.Select((p, i) => p with { Copies = sheet.Placements.Count(l => l.Piece == i) })];
            Assert.Equal(found.Value, sheet.Placements.Sum(p => values[p.Piece]));
            Assert.Empty(LayoutVerifier.Check(new(stock, cut, [sheet], 1)));
        }, iter: 200);

    [Fact]
    public void Sizes_without_a_common_measure_are_refused_and_not_waited_for() =>
        Assert.IsType<BestYield.TooFine>(BestYield.Find(
            [new("odd", Length.FromMicrometres(210_001), Mm(297))], [1], Mm(1117), Mm(5000), Length.Zero).Refusal);

    private static int EveryCut(Piece[] pieces, int[] values, int w, int h, Dictionary<(int, int), int> known)
    {
        if (known.TryGetValue((w, h), out var best))
        {
            return best;
        }

        for (var i = 0; i < pieces.Length; i++)
        {
            var (pw, ph) = (pieces[i].Width.Millimetres, pieces[i].Height.Millimetres);
            best = (pw <= w && ph <= h) || (pieces[i].MayTurn && ph <= w && pw <= h) ? Math.Max(best, values[i]) : best;
        }

        for (var x = 1; x < w; x++)
        {
            best = Math.Max(best, EveryCut(pieces, values, x, h, known) + EveryCut(pieces, values, w - x, h, known));
        }

        for (var y = 1; y < h; y++)
        {
            best = Math.Max(best, EveryCut(pieces, values, w, y, known) + EveryCut(pieces, values, w, h - y, known));
        }

        return known[(w, h)] = best;
    }

    private static Yield Find(Piece[] pieces, int[] values, int width, int height, int gutter)
    {
        var outcome = BestYield.Find(pieces, values, Mm(width), Mm(height), Mm(gutter));
        Assert.True(outcome.Granted, outcome.Refusal?.Message);
        return outcome.Value;
    }

    private static Length Mm(int mm) => Length.FromMillimetres(mm);
}

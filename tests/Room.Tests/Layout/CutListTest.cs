using CsCheck;
using Goodsheet.Room.Layout;
using static Goodsheet.Room.Tests.Layout.NestPackerTest;

namespace Goodsheet.Room.Tests.Layout;

/// <summary>As few cuts as a person at the trimmer would make.</summary>
public sealed class CutListTest
{
    private const int Turns = 40;

    private static readonly Margins AllRound = new(Mm(5), Mm(5), Mm(5), Mm(14));

    [Fact]
    public void One_print_on_a_larger_sheet_takes_four_cuts()
    {
        var stock = Stock.Sheet(Mm(420), Mm(594), AllRound, Mm(4));
        var sheet = Packed(([new("one", Mm(300), Mm(200), 1)], stock), Turns).Sheets.Single();
        var cuts = CutList.Of(stock, sheet);
        Assert.Equal(4, cuts.Count);
        Assert.All(cuts, c => Assert.Equal(0, c.Knife)); // nothing is cleared off what is left over

        // Both offcuts reach the paper's far edge: the margin there is paper, too.
        var left = CutList.Offcuts(stock, sheet);
        Assert.Equal(2, left.Count);
        Assert.Contains(left, a => a.Right == Um(Mm(420)));
        Assert.Contains(left, a => a.Bottom == Um(Mm(594)));
        Assert.Contains(left, a => a.Right == Um(Mm(420)) && a.Bottom == Um(Mm(594)));
    }

    [Fact]
    public void A_print_that_fills_what_can_be_printed_takes_its_four_margins()
    {
        var stock = Stock.Sheet(Mm(310), Mm(219), AllRound);
        var sheet = Packed(([new("one", Mm(300), Mm(200), 1)], stock), Turns).Sheets.Single();
        Assert.Equal(4, CutList.Of(stock, sheet).Count);
        Assert.Empty(CutList.Offcuts(stock, sheet));
    }

    [Fact]
    public void Margins_along_many_prints_go_in_one_cut_each()
    {
        var stock = Stock.Sheet(Mm(210), Mm(219), AllRound);
        var sheet = Packed(([new("four", Mm(100), Mm(100), 4)], stock), Turns).Sheets.Single();
        Assert.Equal(4 + 3, CutList.Of(stock, sheet).Count);
    }

    [Fact]
    public void Paper_before_a_print_is_left_over_with_its_margin_on()
    {
        // A person put it in the middle: what is left of it and before it needs no margin cut off.
        var stock = Stock.Sheet(Mm(300), Mm(300), new(Mm(5), Mm(5), Mm(5), Mm(5)), Mm(4));
        var print = new CutTree.Good(0, false);
        var tree = new CutTree.Cut(CutDirection.Along, Um(Mm(90)), CutTree.Offcut.One,
            new CutTree.Cut(CutDirection.Along, Um(Mm(100)),
                new CutTree.Cut(CutDirection.Across, Um(Mm(90)), CutTree.Offcut.One, new CutTree.Cut(CutDirection.Across, Um(Mm(100)), print, CutTree.Offcut.One)),
                CutTree.Offcut.One));
        var sheet = CutSheet.Of(stock, Um(Mm(300)), tree);
        Assert.Equal(4, CutList.Of(stock, sheet).Count);
        Assert.Empty(LayoutVerifier.Check(new(stock, [new("print", Mm(100), Mm(100), 1)], [sheet], 1)));
    }

    /// <summary>Against every order of taking margins off, tried one after the other.</summary>
    [Fact]
    public void No_order_of_the_same_cuts_takes_fewer() => AnyWork.Sample(work =>
    {
        var m = work.Stock.Margins;
        foreach (var sheet in Packed(work, 3).Sheets.Where(s => s.Placements.Count <= 6))
        {
            bool[] has = [m.Left.Micrometres > 0, m.Right.Micrometres > 0, m.Lead.Micrometres > 0, m.Tail.Micrometres > 0];
            var cuts = CutList.Of(work.Stock, sheet).Count;
            Assert.Equal(FewestByTrying(sheet.Tree, has), cuts);
            Assert.True(cuts <= has.Count(h => h) + Parts(sheet.Tree)); // all margins first is no better
        }
    }, iter: 100);

    private static int Parts(CutTree tree) => tree is CutTree.Cut cut ? 1 + Parts(cut.Near) + Parts(cut.Far) : 0;

    private static int FewestByTrying(CutTree tree, bool[] has)
    {
        if (tree is CutTree.Offcut)
        {
            return 0;
        }

        var fewest = int.MaxValue;
        if (tree is CutTree.Cut cut)
        {
            var (near, far) = cut.Direction is CutDirection.Along ? (0, 1) : (2, 3);
            fewest = 1 + FewestByTrying(cut.Near, Without(has, far)) + FewestByTrying(cut.Far, Without(has, near));
        }
        else if (has.All(h => !h))
        {
            return 0;
        }

        for (var i = 0; i < has.Length; i++)
        {
            fewest = has[i] ? Math.Min(fewest, 1 + FewestByTrying(tree, Without(has, i))) : fewest;
        }

        return fewest;
    }

    private static bool[] Without(bool[] has, int margin) => [.. has.Select((h, i) => h && i != margin)];
}

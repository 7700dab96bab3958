using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Tests.Papers;

/// <summary>What a new room starts from. Every rule here is common practice, no source; the room may edit it.</summary>
public sealed class TradeRulesTest
{
    [Theory]
    [InlineData(PaperClass.Gloss, Coat.Shiny, BlackInk.Photo)]
    [InlineData(PaperClass.Satin, Coat.Shiny, BlackInk.Photo)]
    [InlineData(PaperClass.Pearl, Coat.Shiny, BlackInk.Photo)]
    [InlineData(PaperClass.Baryta, Coat.Shiny, BlackInk.Photo)]
    [InlineData(PaperClass.Matte, Coat.Dull, BlackInk.Matte)]
    [InlineData(PaperClass.SmoothFineArt, Coat.Dull, BlackInk.Matte)]
    [InlineData(PaperClass.TexturedFineArt, Coat.Dull, BlackInk.Matte)]
    public void Photo_black_goes_on_shiny_coats_and_matte_black_on_dull_ones(PaperClass paperClass, Coat coat, BlackInk black)
    {
        Assert.Equal(coat, Of(paperClass).Coat);
        Assert.Equal(black, TradeRules.BlackFor(coat));
    }

    [Theory]
    [InlineData(Coat.Shiny, BlackInk.Photo)]
    [InlineData(Coat.Dull, BlackInk.Matte)]
    public void Canvas_takes_the_black_of_its_own_coat(Coat coat, BlackInk black)
    {
        Assert.Null(Of(PaperClass.Canvas).Coat);
        Assert.Equal(black, Sheet(PaperClass.Canvas, coat).BlackFor(InkKind.Pigment));
    }

    [Fact]
    public void A_dye_set_has_one_black_for_every_paper() =>
        Assert.All(Enum.GetValues<PaperClass>(), c => Assert.All(
            Enum.GetValues<Coat>(), coat => Assert.Equal(BlackInk.Dye, Sheet(c, coat).BlackFor(InkKind.Dye))));

    [Fact]
    public void Pigment_dulls_high_gloss_and_only_that()
    {
        Assert.All(TradeRules.New(), r => Assert.Equal(r.Class is PaperClass.Gloss, HandlingAdvice.InkRemark(r, InkKind.Pigment) is not null));
        Assert.All(TradeRules.New(), r => Assert.Null(HandlingAdvice.InkRemark(r, InkKind.Dye)));
        Assert.Contains("dye, or give it a coat", HandlingAdvice.InkRemark(Of(PaperClass.Gloss), InkKind.Pigment), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(PaperClass.Gloss, Feed.Stack)]
    [InlineData(PaperClass.Satin, Feed.Stack)]
    [InlineData(PaperClass.Pearl, Feed.Stack)]
    [InlineData(PaperClass.Matte, Feed.TwoOrThree)]
    [InlineData(PaperClass.SmoothFineArt, Feed.OneByOne)]
    [InlineData(PaperClass.TexturedFineArt, Feed.OneByOne)]
    [InlineData(PaperClass.Baryta, Feed.OneByOne)]
    [InlineData(PaperClass.Canvas, Feed.Roll)]
    public void Each_class_feeds_its_way(PaperClass paperClass, Feed feed) => Assert.Equal(feed, Of(paperClass).UsualFeed);

    [Theory]
    [InlineData(Feed.Stack, "Fan the sheets and load them together")]
    [InlineData(Feed.TwoOrThree, "Load two or three sheets at a time")]
    [InlineData(Feed.OneByOne, "Feed one by one, through the art path")]
    [InlineData(Feed.Roll, "Feed from the roll")]
    public void The_hands_are_told_the_paper_s_own_way_whatever_its_class(Feed feed, string words) =>
        Assert.All(TradeRules.New(), rule =>
        {
            var paper = Sheet(rule.Class, Coat.Dull);
            paper.Feed = feed;
            var said = HandlingAdvice.Of(paper, rule).Select(s => s.Do).ToArray();
            Assert.Contains(words, said);
            Assert.Single(said, s => s.StartsWith("Fan", StringComparison.Ordinal) || s.StartsWith("Load", StringComparison.Ordinal) || s.StartsWith("Feed", StringComparison.Ordinal));
        });

    [Fact]
    public void Everyday_classes_want_a_clean_white_and_a_warm_base_is_fine_on_art_baryta_and_canvas() =>
        Assert.All(TradeRules.New(), r => Assert.Equal(
            r.Class is PaperClass.SmoothFineArt or PaperClass.TexturedFineArt or PaperClass.Baryta or PaperClass.Canvas, r.WarmBaseIsFine));

    [Fact]
    public void Art_paper_is_brushed_before_it_is_fed() =>
        Assert.All(TradeRules.New(), r =>
        {
            var said = HandlingAdvice.Of(Sheet(r.Class, Coat.Dull), r).Select(s => s.Do).ToList();
            Assert.Equal(r.BrushBeforeFeeding, said.Contains("Brush it before feeding"));
            Assert.True(!r.BrushBeforeFeeding || said.IndexOf("Brush it before feeding") < said.IndexOf("Fan the sheets and load them together"));
        });

    [Fact]
    public void Paper_that_does_not_lie_flat_is_not_printed() =>
        Assert.All(TradeRules.New(), r => Assert.Equal("Print it only if it lies flat", HandlingAdvice.Of(Sheet(r.Class, Coat.Dull), r)[0].Do));

    [Fact]
    public void A_weak_black_is_a_sign_of_the_wrong_one_sooner_on_a_shiny_coat_than_on_a_dull_one() =>
        Assert.True(
            TradeRules.New().Where(r => r.Coat is Coat.Shiny).Min(r => r.LeastDMax) > TradeRules.New().Where(r => r.Coat is Coat.Dull).Max(r => r.LeastDMax));

    [Fact]
    public void Paper_goes_to_a_client_up_to_its_day_and_after_it_only_as_far_as_it_was_proved()
    {
        var lot = new Lot { Code = new("1"), Paper = new("p"), Format = new("A4"), Received = new(2026, 1, 1), BestBefore = new(2026, 6, 30) };
        Assert.True(ShelfRules.MayGoToClient(lot, new(2026, 6, 30)));
        Assert.False(ShelfRules.MayGoToClient(lot, new(2026, 7, 1)));
        lot.ExtendedTo = new(2026, 9, 30);
        Assert.True(ShelfRules.MayGoToClient(lot, new(2026, 9, 30)));
        Assert.False(ShelfRules.MayGoToClient(lot, new(2026, 10, 1)));
    }

    private static ClassRule Of(PaperClass paperClass) => TradeRules.New().Single(r => r.Class == paperClass);

    private static Paper Sheet(PaperClass paperClass, Coat coat) => new()
    {
        Code = new("p"),
        Name = "P",
        Class = paperClass,
        Base = PaperBase.Cotton,
        Coat = coat,
        Grammage = 300,
        Feed = Feed.Stack,
    };
}

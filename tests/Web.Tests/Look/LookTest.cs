using Bunit;
using Goodsheet.Room;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Tests.Look;

public sealed class LookTest : BunitContext
{
    [Fact]
    public void A_state_is_always_a_word_too() =>
        Render<Mark>(m => m.Add(p => p.State, MarkState.Act).AddChildContent("drifting"))
            .MarkupMatches("""<span class="mark act">drifting</span>""");

    [Fact]
    public void A_no_is_announced_and_nothing_stands_where_there_is_none()
    {
        Assert.Equal("Not so.", Render<Refused>(r => r.Add(p => p.Why, new No())).Find("[role=alert]").TextContent);
        Assert.Empty(Render<Refused>().Markup.Trim());
    }

    [Fact]
    public void A_page_head_has_one_heading_of_the_first_order()
    {
        var head = Render<Head>(h => h.Add(p => p.Title, "Shelf").Add(p => p.Says, "Two boxes are short."));
        Assert.Equal("Shelf", head.Find("h1").TextContent);
        Assert.Equal("Two boxes are short.", head.Find(".says").TextContent);
        Assert.Empty(head.FindAll(".do"));
    }

    [Fact]
    public void Empty_says_how_it_comes() =>
        Assert.Equal(["No papers yet.", "Add one."], Render<Empty>(e => e.Add(p => p.Title, "No papers yet.").Add(p => p.How, "Add one.")).FindAll("p").Select(p => p.TextContent));

    [Theory]
    [InlineData(1, false, true)]
    [InlineData(2, true, true)]
    [InlineData(3, true, false)]
    public void A_long_list_leads_to_the_page_before_and_after(int page, bool before, bool after)
    {
        var pager = Render<Pager>(p => p.Add(x => x.Page, page).Add(x => x.Size, 10).Add(x => x.Of, 25).Add(x => x.Href, n => $"/list?page={n}"));
        Assert.Equal(before, pager.FindAll("a[rel=prev]").Count == 1);
        Assert.Equal(after, pager.FindAll("a[rel=next]").Count == 1);
    }

    private sealed record No() : Refusal("Not so.");
}

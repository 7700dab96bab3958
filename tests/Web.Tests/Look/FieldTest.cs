using System.ComponentModel.DataAnnotations;
using Bunit;
using Microsoft.AspNetCore.Components;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Tests.Look;

public sealed class FieldTest : BunitContext
{
    [Fact]
    public void A_hint_is_read_out_with_the_input()
    {
        var field = Show(new(), hint: "As its box says");
        Assert.Equal("weight-hint", field.Find("input").GetAttribute("aria-describedby"));
        Assert.Equal("As its box says", field.Find("#weight-hint").TextContent);
        Assert.Equal("weight", field.Find("input").Id);
        Assert.Null(field.Find("input").GetAttribute("aria-invalid"));
    }

    [Fact]
    public void Without_hint_and_error_nothing_is_pointed_at() =>
        Assert.Null(Show(new()).Find("input").GetAttribute("aria-describedby"));

    [Fact]
    public void What_the_form_finds_wrong_stands_at_its_field_and_goes_when_it_is_right()
    {
        var form = Show(new() { Weight = 5 }, hint: "g/m2");
        form.Find("form").Submit();
        Assert.Equal("Between 40 and 900.", form.Find("#weight-err").TextContent);
        Assert.Equal("weight-hint weight-err", form.Find("input").GetAttribute("aria-describedby"));
        Assert.Equal("true", form.Find("input").GetAttribute("aria-invalid"));
        Assert.Contains("bad", form.Find(".field").ClassList);

        form.Find("input").Change("300");
        form.Find("form").Submit();
        Assert.Empty(form.FindAll("#weight-err"));
        Assert.Equal("weight-hint", form.Find("input").GetAttribute("aria-describedby"));
    }

    [Fact]
    public void What_the_page_finds_wrong_goes_first() =>
        Assert.Equal("No such paper.", Show(new(), error: "No such paper.").Find("#weight-err").TextContent);

    private IRenderedComponent<EditForm> Show(Box box, string? hint = null, string? error = null) => Render<EditForm>(form => form
        .Add(f => f.Model, box)
        .Add(f => f.ChildContent, _ => builder =>
        {
            builder.OpenComponent<DataAnnotationsValidator>(0);
            builder.CloseComponent();
            builder.OpenComponent<Field>(1);
            builder.AddComponentParameter(2, nameof(Field.Id), "weight");
            builder.AddComponentParameter(3, nameof(Field.Label), "Weight");
            builder.AddComponentParameter(4, nameof(Field.Hint), hint);
            builder.AddComponentParameter(5, nameof(Field.Error), error);
            builder.AddComponentParameter(6, nameof(Field.ChildContent), (RenderFragment)(inner =>
            {
                inner.OpenComponent<InputNumber<int>>(0);
                inner.AddComponentParameter(1, "Value", box.Weight);
                inner.AddComponentParameter(2, "ValueChanged", EventCallback.Factory.Create<int>(this, weight => box.Weight = weight));
                inner.AddComponentParameter(3, "ValueExpression", (System.Linq.Expressions.Expression<Func<int>>)(() => box.Weight));
                inner.CloseComponent();
            }));
            builder.CloseComponent();
        }));

    private sealed class Box
    {
        [Range(40, 900, ErrorMessage = "Between 40 and 900.")]
        public int Weight { get; set; } = 300;
    }
}

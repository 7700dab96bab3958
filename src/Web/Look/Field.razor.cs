using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;

namespace Goodsheet.Web.Look;

/// <summary>A label, a hint, an input and what is wrong with it, tied together for those who do not see them.</summary>
public sealed partial class Field : IDisposable
{
    private FieldIdentifier? input;
    private string wanted = "something the room can read";

    [Parameter, EditorRequired] public required string Id { get; set; }

    [Parameter, EditorRequired] public required string Label { get; set; }

    [Parameter] public string? Hint { get; set; }

    /// <summary>What a page found wrong itself; otherwise the field says what the form found.</summary>
    [Parameter] public string? Error { get; set; }

    [Parameter] public RenderFragment? ChildContent { get; set; }

    [CascadingParameter] private EditContext? Form { get; set; }

    private string? Wrong => Error ?? (input is { } tied && Form?.GetValidationMessages(tied).FirstOrDefault() is { } message ? Plain(message) : null);

    public void Dispose()
    {
        if (Form is not null)
        {
            Form.OnValidationStateChanged -= Show;
        }
    }

    protected override void OnInitialized()
    {
        if (Form is not null)
        {
            Form.OnValidationStateChanged += Show;
        }
    }

    /// <summary>What an input takes over from the field around it.</summary>
    /// <param name="field">What it writes to.</param>
    /// <param name="wants">What it wants, as "a whole number".</param>
    /// <param name="given">Its own attributes; they stay.</param>
    internal Dictionary<string, object> Tie(FieldIdentifier field, string wants, IReadOnlyDictionary<string, object>? given)
    {
        (input, wanted) = (field, wants);
        var all = given is null ? [] : new Dictionary<string, object>(given);
        all.TryAdd("id", Id);
        var (hint, error) = ($"{Id}-hint", $"{Id}-err");
        var others = all.Remove("aria-describedby", out var said) // the input keeps what it was given before
            ? $"{said}".Split(' ', StringSplitOptions.RemoveEmptyEntries).Except([hint, error]) : [];
        string?[] described = [.. others, Hint is null ? null : hint, Wrong is null ? null : error];
        if (string.Join(' ', described.OfType<string>()) is { Length: > 0 } ids)
        {
            all["aria-describedby"] = ids;
        }

        if (Wrong is not null)
        {
            all["aria-invalid"] = "true";
        }

        return all;
    }

    private void Show(object? sender, ValidationStateChangedEventArgs e) => StateHasChanged();

    // The framework says "The value 'abc' is not valid for 'Grammage'.", where the person knows no Grammage.
    private string Plain(string message) => NotRead().Match(message) is { Success: true } found
        ? found.Groups[1].Length == 0 ? $"{Label} is missing: {wanted} is wanted." : $"“{found.Groups[1].Value}” cannot be read as {wanted}."
        : message;

    [GeneratedRegex("^The value '(.*)' is not valid for ", RegexOptions.Singleline)]
    private static partial Regex NotRead();
}

using System.Diagnostics.CodeAnalysis;
using Microsoft.AspNetCore.Components;
using Forms = Microsoft.AspNetCore.Components.Forms;

namespace Goodsheet.Web.Look;

// The framework's inputs by their own names, each tied to the field around it: its hint, its error, and what was wanted
// when what was typed cannot be read. Pages know these only; the framework's namespace is not among their usings.

/// <summary>The framework's form.</summary>
public sealed class EditForm : Forms.EditForm;

/// <summary>The framework's check of what a form's properties say of themselves.</summary>
public sealed class DataAnnotationsValidator : Forms.DataAnnotationsValidator;

/// <summary>A line of text.</summary>
public sealed class InputText : Forms.InputText
{
    [CascadingParameter] public Field? In { get; set; }

    protected override void OnParametersSet() => AdditionalAttributes = In?.Tie(FieldIdentifier, "text", AdditionalAttributes) ?? AdditionalAttributes;
}

/// <summary>Several lines of text.</summary>
public sealed class InputTextArea : Forms.InputTextArea
{
    [CascadingParameter] public Field? In { get; set; }

    protected override void OnParametersSet() => AdditionalAttributes = In?.Tie(FieldIdentifier, "text", AdditionalAttributes) ?? AdditionalAttributes;
}

/// <summary>A number, whole or not, as its type is.</summary>
public sealed class InputNumber<[DynamicallyAccessedMembers(DynamicallyAccessedMemberTypes.All)] TValue> : Forms.InputNumber<TValue>
{
    private static readonly string Wanted =
        (Nullable.GetUnderlyingType(typeof(TValue)) ?? typeof(TValue)) is var type && (type == typeof(int) || type == typeof(long) || type == typeof(short))
            ? "a whole number" : "a number";

    [CascadingParameter] public Field? In { get; set; }

    protected override void OnParametersSet() => AdditionalAttributes = In?.Tie(FieldIdentifier, Wanted, AdditionalAttributes) ?? AdditionalAttributes;
}

/// <summary>A date.</summary>
public sealed class InputDate<[DynamicallyAccessedMembers(DynamicallyAccessedMemberTypes.All)] TValue> : Forms.InputDate<TValue>
{
    [CascadingParameter] public Field? In { get; set; }

    protected override void OnParametersSet()
    {
        base.OnParametersSet(); // its kind: date, month or time
        AdditionalAttributes = In?.Tie(FieldIdentifier, "a date", AdditionalAttributes) ?? AdditionalAttributes;
    }
}

/// <summary>One of several.</summary>
public sealed class InputSelect<[DynamicallyAccessedMembers(DynamicallyAccessedMemberTypes.All)] TValue> : Forms.InputSelect<TValue>
{
    [CascadingParameter] public Field? In { get; set; }

    protected override void OnParametersSet() => AdditionalAttributes = In?.Tie(FieldIdentifier, "one of the list", AdditionalAttributes) ?? AdditionalAttributes;
}

/// <summary>Yes or no.</summary>
public sealed class InputCheckbox : Forms.InputCheckbox
{
    [CascadingParameter] public Field? In { get; set; }

    protected override void OnParametersSet() => AdditionalAttributes = In?.Tie(FieldIdentifier, "yes or no", AdditionalAttributes) ?? AdditionalAttributes;
}

/// <summary>One of a few that all show.</summary>
[CascadingTypeParameter(nameof(TValue))]
public sealed class InputRadioGroup<[DynamicallyAccessedMembers(DynamicallyAccessedMemberTypes.All)] TValue> : Forms.InputRadioGroup<TValue>;

/// <summary>One of those few.</summary>
public sealed class InputRadio<[DynamicallyAccessedMembers(DynamicallyAccessedMemberTypes.All)] TValue> : Forms.InputRadio<TValue>;

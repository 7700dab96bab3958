namespace Goodsheet.App.Storage;

/// <summary>A key that forms are signed with. Kept with the room's records, so that every node and every opening has the same.</summary>
public sealed class FormKey
{
    public required string Name { get; init; }

    public required string Xml { get; init; }
}

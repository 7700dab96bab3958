namespace Goodsheet.Room.Shelf;

/// <summary>The number on a lot's label.</summary>
public readonly record struct LotCode(string Value)
{
    public override string ToString() => Value;
}

namespace Goodsheet.Colour.Icc;

/// <summary>One row of a profile's tag table.</summary>
/// <param name="Signature">Which tag it is.</param>
/// <param name="Offset">Where its data start, in bytes from the start of the profile.</param>
/// <param name="Size">How long they are, in bytes. Tags may share their data.</param>
/// <param name="Type">The type of the data.</param>
public sealed record IccTag(Signature Signature, int Offset, int Size, Signature Type);

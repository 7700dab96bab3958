namespace Goodsheet.Colour.Measurement;

/// <summary>What a specification of a CxF file says of how its colours were had.</summary>
internal sealed class CxfSpecification
{
    public MCondition Condition { get; set; }

    public string Illuminant { get; set; } = "";

    public string Observer { get; set; } = "";

    public string Start { get; set; } = "";

    public string Step { get; set; } = "";
}

/// <summary>One colour of an object, as text: a spectrum, or three numbers of Lab or XYZ.</summary>
/// <param name="Specification">The id of its specification; empty where none is named.</param>
/// <param name="Kind">What the values are.</param>
/// <param name="Start">The wavelength of the first value, where it is said at the colour itself.</param>
/// <param name="Values">As written.</param>
internal sealed record CxfColour(string Specification, CxfKind Kind, string Start, string[] Values);

/// <summary>The order is that of preference.</summary>
internal enum CxfKind
{
    Spectrum,
    Lab,
    Xyz,
}

/// <summary>An object of a CxF file: a patch, its device values and its colours.</summary>
/// <param name="Line">Where it begins.</param>
/// <param name="Name">Its name; the id where it has none.</param>
/// <param name="Type">What the file calls its kind; of a tint of CxF/X-4, what lies under it.</param>
/// <param name="IsTint">Whether it is a tint of a spot ink (CxF/X-4).</param>
internal sealed record CxfObject(int Line, string Name, string Type, bool IsTint)
{
    public List<CxfColour> Colours { get; } = [];

    public List<(string Channel, string Value)> Device { get; } = [];

    /// <summary>The largest value a channel takes, where the file says it.</summary>
    public string MaxRange { get; set; } = "";
}

/// <summary>A CxF file as text, before anybody asks what it means.</summary>
internal sealed class CxfDocument
{
    public List<CxfObject> Objects { get; } = [];

    public Dictionary<string, CxfSpecification> Specifications { get; } = [];
}

namespace Goodsheet.Colour.Icc;

/// <summary>The classes of profile this library reads (ICC.1 clause 7.2.5, from memory).</summary>
public enum ProfileClass
{
    /// <summary>A scanner or a camera, 'scnr'.</summary>
    Input,

    /// <summary>A screen, or a space defined as one, 'mntr'.</summary>
    Display,

    /// <summary>A printer with its paper, 'prtr'.</summary>
    Output,

    /// <summary>A conversion between a colour space and the PCS, 'spac'.</summary>
    ColourSpace,
}

namespace Goodsheet.Colour.Density;

/// <summary>Spectral conditions of density (ISO 5-3).</summary>
public enum DensityStatus
{
    /// <summary>As the eye weighs light: for black, and for D-max.</summary>
    Visual,

    /// <summary>Status A, for photographic prints.</summary>
    A,

    /// <summary>Status E, for graphic arts, with a narrower blue.</summary>
    E,

    /// <summary>Status M, for negatives.</summary>
    M,

    /// <summary>Status T, for graphic arts, with a wide blue.</summary>
    T,
}

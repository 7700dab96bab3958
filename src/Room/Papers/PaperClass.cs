namespace Goodsheet.Room.Papers;

/// <summary>The eight classes of inkjet paper.</summary>
/// <remarks>The numbers are stored: never change one, add at the end. So with every enum in this folder.</remarks>
public enum PaperClass
{
    Gloss = 1,
    Satin = 2,
    Pearl = 3,
    Matte = 4,
    SmoothFineArt = 5,
    TexturedFineArt = 6,
    Baryta = 7,
    Canvas = 8,
}

/// <summary>What lies under the coating.</summary>
public enum PaperBase
{
    ResinCoated = 1,
    Cellulose = 2,
    Cotton = 3,
    BarytaFibre = 4,
    CottonCanvas = 5,
    PolyCottonCanvas = 6,
}

/// <summary>Whether the coat shines. It decides the black; on canvas it is not given by the class.</summary>
public enum Coat
{
    Shiny = 1,
    Dull = 2,
}

/// <summary>How a paper goes into the printer.</summary>
public enum Feed
{
    /// <summary>Single-sided production paper: a stack feeds itself.</summary>
    Stack = 1,

    /// <summary>Double-sided paper: two or three sheets at a time.</summary>
    TwoOrThree = 2,

    /// <summary>Art paper: one by one, through its own path.</summary>
    OneByOne = 3,

    Roll = 4,
}

/// <summary>Optical brightener: how strongly the paper's white hangs on ultraviolet in the light.</summary>
public enum Brightener
{
    None = 1,
    Faint = 2,
    Low = 3,
    Moderate = 4,
    High = 5,
}

/// <summary>Whether a paper has its place in the room.</summary>
public enum LineUp
{
    In = 1,
    OnTrial = 2,
    RunningDown = 3,
    Gone = 4,
}

/// <summary>Which black ink prints.</summary>
public enum BlackInk
{
    Photo = 1,
    Matte = 2,

    /// <summary>A dye set has one black for every paper.</summary>
    Dye = 3,
}

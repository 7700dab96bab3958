using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Profiles;

/// <summary>How much black ink a CMYK profile takes for a colour: none in the lights, all in the deepest shadow, less in strong colours.</summary>
/// <param name="Start">The lightness, relative to the paper, below which black comes in.</param>
/// <param name="Most">The most black, 0 to 1.</param>
/// <param name="BlackL">The lightness of the condition's darkest colour.</param>
internal sealed record BlackGeneration(double Start, double Most, double BlackL)
{
    private const double Bend = 1.2; // starts gently

    // Chroma at which black has halved. Dark strong colours can be printed only with black; were it kept out of those just
    // inside the gamut, it would have to jump within a cell of the table.
    private const double GreyReach = 150;

    public double For(Lab colour)
    {
        var depth = Math.Clamp((Start - colour.L) / (Start - BlackL), 0, 1);
        var grey = 1 / (1 + Math.Pow(colour.Chroma / GreyReach, 2));
        return Most * Math.Pow(depth, Bend) * grey;
    }
}

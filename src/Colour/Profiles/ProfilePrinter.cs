using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Profiles;

/// <summary>A printing condition as a profile describes it: its absolute colorimetric table, read as engines read it.</summary>
public sealed class ProfilePrinter : IPrinterModel
{
    private readonly ColourTransform toLab;

    /// <param name="profile">A profile with a way from its device to colours.</param>
    /// <exception cref="ArgumentException">It has none.</exception>
    public ProfilePrinter(IccProfile profile) => toLab = ColourTransform.ToLab(profile, RenderingIntent.AbsoluteColorimetric);

    /// <inheritdoc/>
    public int Channels => toLab.Inputs;

    /// <inheritdoc/>
    public void Predict(ReadOnlySpan<double> device, Span<double> lab) => toLab.Apply(device, lab);
}

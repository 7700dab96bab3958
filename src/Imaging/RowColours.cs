using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Imaging;

/// <summary>Converts whole pixels, as many out as in; several threads may at once.</summary>
internal delegate void RowConversion(ReadOnlySpan<ushort> from, Span<ushort> to);

/// <summary>How rows of a picture's codes become rows of the printer's.</summary>
/// <param name="Inputs">Channels of the picture.</param>
/// <param name="Outputs">Channels of the printer.</param>
/// <param name="Convert">Whole pixels in, as many out.</param>
internal sealed record RowColours(int Inputs, int Outputs, RowConversion Convert)
{
    /// <summary>What a print is made with: the picture's own profile to the printer's.</summary>
    /// <exception cref="ArgumentException">A profile has no way to colours or from them.</exception>
    public static RowColours Of(PrintSource source, PrintRecipe recipe)
    {
        var rows = new PixelRows(ColourTransform.Create(source.From, source.To, recipe.Intent, recipe.BlackPointCompensation));
        return new(rows.Inputs, rows.Outputs, rows.Convert);
    }
}

/// <summary>A picture that can be printed, and the two profiles it goes between.</summary>
internal sealed record PrintSource(ImageFile Image, IccProfile From, IccProfile To)
{
    public static PictureResult<PrintSource> Of(string picture, byte[] profile)
    {
        var opened = PictureSource.Read(picture);
        if (opened.Value is not { } meant)
        {
            return opened.Fault!;
        }

        var read = IccProfile.Read(profile);
        return read.Profile is { } to
            ? new PrintSource(meant.Image, meant.Profile, to)
            : new PictureFault($"The printer's profile is damaged at byte {read.Fault!.Offset}: {read.Fault.Message}");
    }
}

using Goodsheet.App.Printing;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Makes a test strip of a picture's print, without a room: at a place that is said, or at the one that has most worth looking at.</summary>
public sealed class CutStrip
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        if (!File.Exists(request.Image) || !File.Exists(request.Profile))
        {
            return new CheckImage.NotThere(File.Exists(request.Image) ? request.Profile : request.Image);
        }

        var profile = await File.ReadAllBytesAsync(request.Profile, cancel);
        var (recipe, size) = (request.Recipe, request.Size);
        var at = request.At;
        if (at is null)
        {
            var read = IccProfile.Read(profile);
            if (read.Profile is not { } printer)
            {
                return new CheckImage.Refused($"The profile is damaged at byte {read.Fault!.Offset}: {read.Fault.Message}");
            }

            var part = (Math.Min(1, size.Width.Millimetres / recipe.WidthMm), Math.Min(1, size.Height.Millimetres / recipe.HeightMm));
            var places = await Task.Run(() => TestPlaces.Find(request.Image, printer, recipe.BlackPointCompensation, recipe.WidthMm / recipe.HeightMm, part), cancel);
            if (places.Value is not { } found)
            {
                return new CheckImage.Refused(places.Fault!.Message);
            }

            at = (Length.NearestToMillimetres(found[0].X * recipe.WidthMm), Length.NearestToMillimetres(found[0].Y * recipe.HeightMm));
        }

        var (x, y) = at.Value;
        if (x.Millimetres >= recipe.WidthMm || y.Millimetres >= recipe.HeightMm || size.Width <= Length.Zero || size.Height <= Length.Zero)
        {
            return new MakeTestStrip.OutsideThePrint();
        }

        var says = FormattableString.Invariant($"Test strip of {Path.GetFileNameWithoutExtension(request.Image)} {recipe.WidthMm:0.#} by {recipe.HeightMm:0.#} mm at {x.Millimetres:0.#} {y.Millimetres:0.#} - {Path.GetFileNameWithoutExtension(request.Profile)}");
        var made = await Task.Run(() => TestStripFile.Write(
            new(request.Image, profile, recipe, x.Millimetres, y.Millimetres, size.Width.Millimetres, size.Height.Millimetres, says, request.Output), progress, null, cancel), cancel);
        return made.Value is { } done
            ? new Done(request.Output, x.Millimetres, y.Millimetres, done.Width, done.Height)
            : new CheckImage.Refused(made.Fault!.Message);
    }
#pragma warning restore CA1822

    /// <param name="At">From the picture's upper left corner; none for the proposed place.</param>
    /// <param name="Size">Of the strip.</param>
    public sealed record Request(string Image, string Profile, PrintRecipe Recipe, (Length X, Length Y)? At, LengthText.StatedSize Size, string Output);

    public sealed record Done(string File, double XMm, double YMm, int PixelsWide, int PixelsHigh);
}

using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Says of a picture what will go wrong with its print on one paper: pixels, profile, clipped ends, colours the paper cannot show.</summary>
public sealed class CheckImage
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Width <= Length.Zero || request.Height <= Length.Zero || request.Distance <= Length.Zero)
        {
            return new NoSize();
        }

        if (!File.Exists(request.Image) || !File.Exists(request.Profile))
        {
            return new NotThere(File.Exists(request.Image) ? request.Profile : request.Image);
        }

        var read = IccProfile.Read(await File.ReadAllBytesAsync(request.Profile, cancel));
        if (read.Profile is not { } printer)
        {
            return new Refused($"The profile is damaged at byte {read.Fault!.Offset}: {read.Fault.Message}");
        }

        var probed = ImageFile.Probe(request.Image);
        if (probed.Value is not { } image)
        {
            return new Refused(probed.Fault!.Message);
        }

        var measured = await Task.Run(() => ImageStatistics.Measure(request.Image, printer, blackPointCompensation: true, cancel), cancel);
        if (measured.Value is not { } pixels)
        {
            return new Refused(measured.Fault!.Message);
        }

        var said = PrintCheck.OfImage(image, request.Width, request.Height, request.Distance).Concat(
            PrintCheck.OfPixels(pixels, PrintCheck.PixelsPerInch((image.Width, image.Height), (request.Width, request.Height)), request.Distance));
        return new Done(
            image.Width, image.Height, image.Depth, image.Profile is not null,
            [.. said.Select(s => new Finding(s.Kind, Weight(s.Severity), s.Text, s.Help))],
            pixels.MissedColours.Share, pixels.MissedColours.MeanOutside, pixels.MissedColours.Largest);
    }
#pragma warning restore CA1822

    private static string Weight(Severity severity) => severity switch
    {
        Severity.Stops => "stops",
        Severity.Warning => "ask",
        _ => "know",
    };

    public sealed record Request(string Image, string Profile, Length Width, Length Height, Length Distance);

    /// <param name="OutsideShare">The share of the picture that the print misses by more than 2 dE00.</param>
    /// <param name="OutsideMeanDeltaE00">By how much, on average.</param>
    /// <param name="OutsideLargestDeltaE00">And at most.</param>
    public sealed record Done(
        int PixelsWide, int PixelsHigh, int Depth, bool HasProfile, IReadOnlyList<Finding> Findings,
        double OutsideShare, double OutsideMeanDeltaE00, double OutsideLargestDeltaE00);

    public sealed record Finding(string Kind, string Weight, string Text, string Help);

    public sealed record NoSize() : Refusal("A print is wider and higher than nothing, and is looked at from somewhere.");

    public sealed record NotThere(string Name) : Refusal($"There is no file {Name}.");

    public sealed record Refused(string Why) : Refusal(Why);
}

using Goodsheet.Imaging;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>What earlier work on a picture will show in its print.</summary>
/// <remarks>The limits are common practice, no source, but for what the eye resolves.</remarks>
internal static class TraceCheck
{
    private const string Blocks = "JPEG blocks";
    private const string Grain = "grain";
    private const string Tones = "missing tones";

    private const double SeenStep = 1; // code of 8 bits, in even places, on average; from twice as much on it is asked about
    private const double BlockPixels = 8;
    private const double SeenPoints = 3; // a block that is fewer points across than this melts into its surroundings
    private const double SeenGrain = 4; // codes of 8 bits
    private const double EnoughTones = 0.65;

    /// <summary>All it can say.</summary>
    public static readonly string[] Kinds = [Blocks, Grain, Tones];

    /// <param name="traces">What was found in the picture.</param>
    /// <param name="pixelsPerInch">Of the picture's own pixels on paper.</param>
    /// <param name="distance">From which it is looked at.</param>
    public static IEnumerable<PrintCheck.Said> Of(PictureTraces traces, double pixelsPerInch, Length distance)
    {
        var points = PrintCheck.Resolved(distance) / pixelsPerInch; // that the eye tells apart, along one pixel
        if (traces.BlockStep > SeenStep && BlockPixels * points > SeenPoints)
        {
            yield return new(Blocks, traces.BlockStep > 2 * SeenStep ? Severity.Warning : Severity.ToKnow, $"The picture was packed as a JPEG, and not gently: squares of {BlockPixels / pixelsPerInch * 25.4:0.0} mm may show in even places.", "Ask for the file it was made from.");
        }

        // What is finer than the eye tells apart evens out.
        var seen = traces.Grain * Math.Min(1, points);
        if (seen > SeenGrain)
        {
            yield return new(Grain, Severity.ToKnow, $"Grain or noise of {seen:0} of 255 will show even in the smoothest places.", "Ask whether that is meant.");
        }

        if (traces.TonesUsed < EnoughTones)
        {
            yield return new(Tones, Severity.ToKnow, $"Only {100 * traces.TonesUsed:0} % of the tones between its darkest and its lightest are there: its contrast was raised in 8 bits, and skies may show bands.", "Ask for a file worked on in 16 bits.");
        }
    }
}

using Goodsheet.App.Profiles;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Papers;

/// <summary>Says what a paper is, from a chart printed on it.</summary>
public sealed class AssessPaper
{
    // Base white in words: ours, no standard has a band for "clean".
    private const double Warm = 1.5;
    private const double Cold = -2.5;

#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var read = await ChartReading.ReadAsync(request.File, cancel);
        if (!read.Granted)
        {
            return read.Refusal;
        }

        MeasurementSet? without = null;
        if (request.UvExcluded is { } other)
        {
            var second = await ChartReading.ReadAsync(other, cancel);
            if (!second.Granted)
            {
                return second.Refusal;
            }

            without = second.Value.Set!;
        }

        var set = read.Value.Set!;
        if (PaperAssessment.Of(set, without) is not { } paper)
        {
            return new NoBarePaper();
        }

        double? volume = set.Channels == 3
            ? await Task.Run(() => GamutSolid.Of(PrinterModels.Fit([set], null, cancel)).Volume, cancel)
            : null;
        return new Done(paper, volume, White(paper), Class(paper.UvShift));
    }
#pragma warning restore CA1822

    /// <summary>The brightener by how much b* moves without ultraviolet: our own bands, editable nowhere yet.</summary>
    public static Brightener? Class(double? shift) => shift switch
    {
        null => null,
        < 1 => Brightener.None,
        < 2 => Brightener.Faint,
        < 4 => Brightener.Low,
        < 7 => Brightener.Moderate,
        _ => Brightener.High,
    };

    private static string White(PaperAssessment paper) => (paper.White.B, paper.UvShift) switch
    {
        ( < Warm, > 3) => "clean only under light with ultraviolet: behind UV-free glass it turns warmer",
        ( > Warm, _) => "warm",
        ( < Cold, _) => "cold",
        _ => "clean",
    };

    public sealed record Request(string File, string? UvExcluded = null);

    public sealed record Done(PaperAssessment Paper, double? GamutVolume, string White, Brightener? Brightener);

    public sealed record NoBarePaper() : Refusal("The chart has no patch of bare paper, so its white cannot be told.");
}

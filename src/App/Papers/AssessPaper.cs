using Goodsheet.App.Profiles;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Whiteness;
using Goodsheet.Room;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Papers;

/// <summary>Says what a paper is, from a chart printed on it.</summary>
public sealed class AssessPaper
{
    // Base white in words: ours, no standard has a band for "clean".
    private const double Warm = 1.5;
    private const double Cold = -2.5;
    private const double FromUv = 3;

    // b*: under this, two readings differ anyway.
    private const double UnderNoise = 0.5;

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
        var paper = PaperReading.Of(set);
        if (!paper.WhiteIsBare)
        {
            return new NoBarePaper();
        }

        var brightener = without is null ? null : paper.BrightenerAgainst(PaperReading.Of(without));
        if (without is not null && brightener is null)
        {
            return new NotWithAndWithout(set.Condition, without.Condition);
        }

        double? volume = set.Channels == 3
            ? await Task.Run(() => GamutSolid.Of(PrinterModels.Fit([set], null, cancel)).Volume, cancel)
            : null;
        return new Done(
            Seen.Of(paper.White.Lab), Seen.Of(paper.Darkest.Lab), paper.DMax, paper.Whiteness?.Whiteness, paper.Whiteness?.Tint, paper.Brightness,
            brightener?.Index, Class(brightener), White(paper, brightener), volume);
    }
#pragma warning restore CA1822

    /// <summary>The room's word for what the library found; "none" where b* does not even move as far as readings repeat.</summary>
    internal static Brightener? Class(OpticalBrightener? brightener) => brightener switch
    {
        null => null,
        { Index: < UnderNoise } => Brightener.None,
        { Class: BrightenerClass.Faint } => Brightener.Faint,
        { Class: BrightenerClass.Low } => Brightener.Low,
        { Class: BrightenerClass.Moderate } => Brightener.Moderate,
        _ => Brightener.High,
    };

    private static string White(PaperReading paper, OpticalBrightener? brightener) => (paper.White.Lab.B, brightener?.Index) switch
    {
        ( < Warm, > FromUv) => "clean only under light with ultraviolet: behind UV-free glass it turns warmer",
        ( > Warm, _) => "warm",
        ( < Cold, _) => "cold",
        _ => "clean",
    };

    public sealed record Request(string File, string? UvExcluded = null);

    /// <summary>A colour as it is shown.</summary>
    public sealed record Seen(double L, double A, double B)
    {
        internal static Seen Of(Lab lab) => new(lab.L, lab.A, lab.B);
    }

    /// <param name="White">The bare paper.</param>
    /// <param name="Darkest">The darkest patch.</param>
    /// <param name="DMax">Its visual density.</param>
    /// <param name="Whiteness">CIE whiteness for D65, with spectra.</param>
    /// <param name="Tint">CIE tint, with spectra.</param>
    /// <param name="Brightness">Reflectance in the blue, percent, with spectra.</param>
    /// <param name="UvShift">b* without ultraviolet minus b* with it.</param>
    /// <param name="Brightener">In the room's words.</param>
    /// <param name="InWords">The white in words.</param>
    /// <param name="GamutVolume">Cubic dE*ab, three channels only.</param>
    public sealed record Done(
        Seen White, Seen Darkest, double DMax, double? Whiteness, double? Tint, double? Brightness, double? UvShift, Brightener? Brightener,
        string InWords, double? GamutVolume);

    public sealed record NoBarePaper() : Refusal("The chart has no patch of bare paper, so its white cannot be told.");

    public sealed record NotWithAndWithout(MCondition First, MCondition Second) : Refusal(
        $"The first chart is {First} and the second {Second}: a brightener shows between a reading with ultraviolet (M0 or M1) and one without (M2).");
}

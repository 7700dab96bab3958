using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Makes a profile from measured charts and judges it.</summary>
public sealed class MakeProfile(TimeProvider clock)
{
    // Percent of all four inks together.
    private const int LeastInk = 200;
    private const int MostInk = 400;
    private const int UsualInk = 320;

    public async Task<Outcome<Done>> RunAsync(Request request, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        if (request.Grid is < 9 or > 45)
        {
            return new NotAGrid(request.Grid.Value);
        }

        if (request.InkLimit is < LeastInk or > MostInk)
        {
            return new NotAnInkLimit(request.InkLimit.Value);
        }

        var (charts, known) = (new List<MeasurementSet>(), new List<MeasurementSet>());
        foreach (var (file, to) in request.Files.Select(f => (f, charts)).Concat((request.Known ?? []).Select(f => (f, known))))
        {
            var read = await ChartReading.ReadAsync(file, cancel, request.Condition);
            if (!read.Granted)
            {
                return read.Refusal;
            }

            to.Add(read.Value.Set!);
        }

        if (request.Light is { } light)
        {
            if (charts.Concat(known).Any(c => !c.Tells(light)))
            {
                return new DoesNotTell(light);
            }

            (charts, known) = ([.. charts.Select(c => c.Under(light))], [.. known.Select(c => c.Under(light))]);
        }

        var first = charts[0];
        if (first.Channels is not (1 or 3 or 4) || charts.Concat(known).Any(c => c.Space != first.Space || c.Channels != first.Channels))
        {
            return new ChartsDiffer();
        }

        return charts.Sum(c => c.Averaged().Length) < PrinterModels.FewestPatches
            ? new TooFewPatches(PrinterModels.FewestPatches)
            : await Task.Run(() => Make(charts, known.Count > 0 ? known : null, request, progress, cancel), cancel);
    }

    private Done Make(List<MeasurementSet> charts, List<MeasurementSet>? known, Request request, IProgress<double>? progress, CancellationToken cancel)
    {
        var model = known is null ? PrinterModels.Fit(charts, Part(progress, 0, 0.2), cancel)
            : PrinterModels.FitFromKnown(charts, known, Part(progress, 0, 0.2), cancel);
        var made = ProfileMaker.Make(
            request.MeanOfDays ? model : model.OnDayOf(0),
            new()
            {
                Name = request.Name,
                Created = clock.GetUtcNow(),
                Version = request.Version == 2 ? IccVersion.V2 : IccVersion.V4,
                Grid = request.Grid,
                Matte = request.Matte,
                InkLimit = (request.InkLimit ?? UsualInk) / 100.0,
                BlackFrom = request.Black switch { BlackStart.Late => 50, BlackStart.Early => 95, _ => 80 },
                Measurements = CgatsWriter.Write(charts[0], "Goodsheet", request.Name),
            },
            Part(progress, 0.2, 0.9),
            cancel);
        var foretold = PrinterModels.Foretold(charts, known, cancel);
        var worth = ProfileWorth.Judge(IccProfile.Read(made.File).Profile!, charts[0], foretold);
        progress?.Report(1);
        return new(made.File, worth);
    }

    private static Progress<double>? Part(IProgress<double>? progress, double from, double to) =>
        progress is null ? null : new Progress<double>(p => progress.Report(from + (p * (to - from))));

    /// <param name="Files">Charts of one condition, as measured, the newest first.</param>
    /// <param name="Name">What systems show the profile as.</param>
    /// <param name="Version">4 or 2.</param>
    /// <param name="Grid">Nodes along each side of the tables; none for what suits.</param>
    /// <param name="Matte">Whether the paper is matte.</param>
    /// <param name="Known">Charts of another paper on the same printer, which help when there are few patches.</param>
    /// <param name="Condition">Which M-condition to take of files that hold several.</param>
    /// <param name="Light">The light that prints will be looked at under; none for the colours as they were read.</param>
    /// <param name="InkLimit">The most ink of all channels together, in percent; CMYK only, none for what suits most papers.</param>
    /// <param name="Black">From where on black ink is taken; CMYK only.</param>
    /// <param name="MeanOfDays">Whether the profile is of the mean of the charts' days, rather than of the day of the newest.</param>
    public sealed record Request(
        IReadOnlyList<string> Files, string Name, int Version = 4, int? Grid = null, bool Matte = false, IReadOnlyList<string>? Known = null, MCondition? Condition = null, ViewingLight? Light = null,
        int? InkLimit = null, BlackStart Black = BlackStart.Usual, bool MeanOfDays = false);

    public sealed record Done(byte[] File, ProfileWorth Worth);

    public sealed record DoesNotTell(ViewingLight Light) : Refusal(Light switch
    {
        ViewingLight.UvFreeGlass => "What prints look like behind UV-free glass is told by spectra read in M2. These are not.",
        ViewingLight.Daylight => "What prints look like by daylight is told by spectra read in M1 or M0. These are not.",
        _ => "What prints look like under a warm lamp is told by spectra. There are none.",
    });

    public sealed record NotAnInkLimit(int Percent) : Refusal($"At most {Percent} % of ink cannot be: between {LeastInk} and {MostInk} %.");

    public sealed record NotAGrid(int Grid) : Refusal($"{Grid} nodes along a side cannot be: between 9 and 45.");

    public sealed record ChartsDiffer() : Refusal("The charts are not all grey, all RGB or all CMYK. A profile is made from charts of one kind.");

    public sealed record TooFewPatches(int Least) : Refusal($"There are too few different patches: at least {Least}.");
}

/// <summary>From where on a CMYK profile takes black ink.</summary>
public enum BlackStart
{
    Usual,

    /// <summary>In the darks only: light greys stay free of its grain.</summary>
    Late,

    /// <summary>From the lights on: greys stay neutral when the other inks drift, and there is less ink.</summary>
    Early,
}

using System.Collections.Immutable;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;
using Goodsheet.Colour.Whiteness;

namespace Goodsheet.Colour.Papers;

/// <summary>Everything one chart says of the paper it is printed on, in figures.</summary>
public sealed record PaperFigures
{
    private const int GreySteps = 21;
    private const int FewestForModel = 30;

    /// <summary>How it was lit; a white means nothing without it.</summary>
    public required MCondition Condition { get; init; }

    /// <summary>How many channels the printer is driven with.</summary>
    public int Channels { get; init; }

    /// <summary>How many patches were read.</summary>
    public required int Patches { get; init; }

    /// <summary>The bare paper; none where the chart has no patch without ink.</summary>
    public Lab? White { get; init; }

    /// <summary>The patch with the least luminance.</summary>
    public required Lab Darkest { get; init; }

    /// <summary>Its visual density, absolute: −log10(Y / 100).</summary>
    public required double DMax { get; init; }

    /// <summary>CIE whiteness for D65 and 10 degrees, where there are spectra.</summary>
    public double? Whiteness { get; init; }

    /// <summary>CIE tint: above 0 greenish, below 0 reddish.</summary>
    public double? Tint { get; init; }

    /// <summary>Whether the colour is in the range that whiteness is meant for.</summary>
    public bool WhitenessHolds { get; init; }

    /// <summary>Blue brightness in percent, where there are spectra.</summary>
    public double? Brightness { get; init; }

    /// <summary>Mean dE00 of patches printed more than once: paper, printer and instrument together; none where nothing repeats.</summary>
    public double? Grain { get; init; }

    /// <summary>Mean C*ab of the six solids (cyan, magenta, yellow and their overprints); none where the chart has not all.</summary>
    public double? Solids { get; init; }

    /// <summary>Of the gamut, in cubic units of L*a*b*, by a plain smooth surface through the chart: made alike for every paper,
    /// so that it compares with others (see docs/decisions/0270). Three channels and 30 patches or more.</summary>
    public double? Volume { get; init; }

    /// <summary>The same by the model that profiles are made from, which follows the corners: how far apart the two are is how
    /// sure the volume is.</summary>
    public double? VolumeFollowed { get; init; }

    /// <summary>How sure <see cref="Volume"/> is, in the same unit: how far apart the two ways to it are.</summary>
    public double? VolumeGiveOrTake => Volume is { } plain && VolumeFollowed is { } followed ? Math.Abs(plain - followed) : null;

    /// <summary>Where the gamut is large and small.</summary>
    public GamutReach? Reach { get; init; }

    /// <summary>Equal R, G and B from black to paper in 21 even steps, relative to the paper: how neutral it prints before any profile.</summary>
    public ImmutableArray<Lab> Greys { get; init; } = [];

    /// <summary>How far the print gets lighter again while ink is added, in L*, the worst of grey and the six full hues; above 0 only.</summary>
    public double? StepsBack { get; init; }

    /// <summary>Mean C*ab of <see cref="Greys"/> without the two ends.</summary>
    public double? GreyChroma => Greys.Length > 2 ? Greys.Skip(1).SkipLast(1).Average(g => g.Chroma) : null;

    /// <summary>Reads a chart for its paper.</summary>
    /// <param name="chart">One M-condition.</param>
    /// <param name="cancel">Stops the learning of the gamut, which takes seconds for a chart of thousands.</param>
    /// <exception cref="ArgumentException">The chart is empty.</exception>
    public static PaperFigures Of(MeasurementSet chart, CancellationToken cancel = default)
    {
        var reading = PaperReading.Of(chart);
        var figures = new PaperFigures
        {
            Condition = chart.Condition,
            Channels = chart.Channels,
            Patches = chart.Patches.Length,
            White = reading.WhiteIsBare ? reading.White.Lab : null,
            Darkest = reading.Darkest.Lab,
            DMax = reading.DMax,
            Whiteness = reading.Whiteness?.Whiteness,
            Tint = reading.Whiteness?.Tint,
            WhitenessHolds = reading.Whiteness is { IsWhite: true },
            Brightness = reading.Brightness,
            Grain = Repeatability.Within(chart)?.Mean.Value,
            Solids = SolidsOf(chart),
        };
        if (chart.Channels != 3 || !reading.WhiteIsBare || chart.Averaged().Length < FewestForModel)
        {
            return figures;
        }

        var model = PrinterModels.Fit([chart], null, cancel);
        return figures with
        {
            Volume = GamutSolid.VolumeOf(PrinterModels.FitPlainly([chart], cancel)),
            VolumeFollowed = GamutSolid.VolumeOf(model),
            Reach = GamutReach.Of(GamutSolid.Of(model)),
            Greys = GreysOf(model, reading.White.Lab),
            StepsBack = StepsBackOf(model),
        };
    }

    /// <summary>What its white owes to ultraviolet light, from this reading with UV and another without.</summary>
    /// <param name="withoutUv">The same paper read under M2.</param>
    /// <returns>Null unless this reading is M0 or M1, the other M2, and both have the bare paper.</returns>
    public OpticalBrightener? BrightenerAgainst(PaperFigures withoutUv) =>
        Condition is (MCondition.M0 or MCondition.M1) && withoutUv.Condition == MCondition.M2 && White is { } with && withoutUv.White is { } without
            ? OpticalBrightener.Of(with, without, Brightness - withoutUv.Brightness)
            : null;

    private static double? SolidsOf(MeasurementSet chart)
    {
        var full = chart.Space is DeviceSpace.Rgb
            ? chart.Averaged().Where(p => p.Device.All(d => d is 0 or 1) && p.Device.Sum() is 1 or 2).ToArray()
            : [];
        return full.Length == 6 ? full.Average(p => p.Lab.Chroma) : null;
    }

    private static ImmutableArray<Lab> GreysOf(IPrinterModel model, Lab white)
    {
        var device = new double[GreySteps * 3];
        for (var i = 0; i < device.Length; i++)
        {
            device[i] = i / 3 / (GreySteps - 1.0);
        }

        var lab = new double[device.Length];
        model.Predict(device, lab);
        var relative = new MediaRelative(white);
        return [.. Enumerable.Range(0, GreySteps).Select(i => relative.ToRelative(new(lab[3 * i], lab[(3 * i) + 1], lab[(3 * i) + 2])))];
    }

    // From paper to full ink along grey and the six hues: more ink must not be lighter.
    private static double StepsBackOf(IPrinterModel model)
    {
        var worst = 0.0;
        for (var inks = 1; inks < 8; inks++)
        {
            var device = new double[GreySteps * 3];
            for (var i = 0; i < device.Length; i++)
            {
                device[i] = (inks & (1 << (i % 3))) != 0 ? 1 - (i / 3 / (GreySteps - 1.0)) : 1;
            }

            var lab = new double[device.Length];
            model.Predict(device, lab);
            var darkest = 100.0;
            for (var i = 0; i < GreySteps; i++)
            {
                worst = Math.Max(worst, lab[3 * i] - darkest);
                darkest = Math.Min(darkest, lab[3 * i]);
            }
        }

        return worst;
    }
}

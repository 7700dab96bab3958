using Goodsheet.App.Profiles;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Room;
using Goodsheet.Room.Control;

namespace Goodsheet.App.Control;

/// <summary>A strip laid beside the chart its profile was made from.</summary>
internal sealed record StripComparison(MeasurementSet Chart, MeasurementSet Strip, StripVerdict Verdict, StripShift Shift)
{
    private const int Fewest = 12;

    /// <param name="chartFile">The chart.</param>
    /// <param name="stripFile">The strip.</param>
    /// <param name="profileFile">The profile made from that chart; none to leave out whether it was converted twice.</param>
    /// <param name="cancel">Stops it.</param>
    /// <param name="wanted">The M-condition to take of a chart that was read in several; none for what its file has.</param>
    public static async Task<Outcome<StripComparison>> ReadAsync(
        string chartFile, string stripFile, string? profileFile, CancellationToken cancel, MCondition? wanted = null)
    {
        var chart = await ChartReading.ReadAsync(chartFile, cancel, wanted);
        if (!chart.Granted)
        {
            return chart.Refusal;
        }

        var read = await ChartReading.ReadAsync(stripFile, cancel, wanted);
        if (!read.Granted)
        {
            return read.Refusal;
        }

        var (reference, strip) = (chart.Value.Set!, read.Value.Set!);
        if (reference.Condition != strip.Condition)
        {
            return new OtherLight(reference.Condition, strip.Condition);
        }

        if (!reference.HasSpectra || !strip.HasSpectra)
        {
            return new NoSpectra(!reference.HasSpectra);
        }

        var moved = Repeatability.Between(reference, strip);
        var shared = moved?.Count ?? 0;
        var patches = strip.Averaged().Length;
        if (strip.Space != reference.Space || shared * 2 < patches)
        {
            return new AnotherChart(shared, patches);
        }

        if (shared < Fewest)
        {
            return new HalfAStrip(shared, Fewest);
        }

        if (await Task.Run(() => StripFit.Of(reference, strip), cancel) is not { } fit)
        {
            return new NoCorners();
        }

        var found = await Task.Run(() => DriftDiagnosis.Of(fit), cancel);
        var corrected = await Task.Run(() => DriftCorrection.Of(reference, strip)!, cancel);
        var curves = await Task.Run(fit.LeftByCurves, cancel);
        var left = Repeatability.Between(strip, corrected.Best)!.Value;
        var black = BlackCheck.Of(reference, strip);
        var verdict = new StripVerdict(
            shared, moved!.Value.Mean.Value, moved.Value.Largest.Value, found.Cause, found.Chance, found.Other, found.Explained, found.Tells, found.Sure,
            corrected.Applied, corrected.Before.Value, corrected.After.Value, corrected.Size.Value, black?.Then, black?.Now, black?.Wrong ?? false,
            WhiteOf(reference, strip), GreysOf(reference, strip), await TwiceAsync(profileFile, reference, strip, cancel),
            moved.Value.P95.Value, curves.Mean.Value, curves.P95.Value, left.P95.Value);
        return new StripComparison(reference, strip, verdict, StripShift.Of(Shifts(reference, strip), HouseNoise.Usual));
    }

    // A profile that cannot be read says nothing here: it was refused, or will be, where it is used.
    private static async Task<string?> TwiceAsync(string? profileFile, MeasurementSet reference, MeasurementSet strip, CancellationToken cancel)
    {
        var profile = profileFile is null || !File.Exists(profileFile) ? null : IccProfile.Read(await File.ReadAllBytesAsync(profileFile, cancel)).Profile;
        return profile is not null && PathCheck.Of(profile, reference, strip) is { ConvertedTwice: true } check ? check.Assumed : null;
    }

    private static double? WhiteOf(MeasurementSet reference, MeasurementSet strip) =>
        Pairs(reference, strip).Where(p => Inks(reference.Space, p.Device) == 0).Select(p => (double?)CieDe2000.Between(p.Was, p.Is).Value).FirstOrDefault();

    private static double? GreysOf(MeasurementSet reference, MeasurementSet strip) =>
        Pairs(reference, strip).Where(p => IsGrey(reference.Space, p.Device))
            .Max(p => (double?)Math.Sqrt(Math.Pow(p.Is.A - p.Was.A, 2) + Math.Pow(p.Is.B - p.Was.B, 2)));

    private static double Inks(DeviceSpace space, IReadOnlyList<double> device) => device.Sum(v => space is DeviceSpace.Rgb ? 1 - v : v);

    // Paper and black are ends, not greys; of four inks only black alone is asked to be grey.
    private static bool IsGrey(DeviceSpace space, IReadOnlyList<double> device) => space is DeviceSpace.Rgb
        ? device[0] == device[1] && device[1] == device[2] && device[0] is > 0 and < 1
        : device.Count == 4 && device.Take(3).All(v => v == 0) && device[3] is > 0 and < 1;

    private static List<LabShift> Shifts(MeasurementSet reference, MeasurementSet strip) =>
        [.. Pairs(reference, strip).Select(p => new LabShift(p.Is.L - p.Was.L, p.Is.A - p.Was.A, p.Is.B - p.Was.B))];

    private static IEnumerable<(IReadOnlyList<double> Device, Lab Was, Lab Is)> Pairs(MeasurementSet reference, MeasurementSet strip)
    {
        var known = reference.Averaged().ToDictionary(p => string.Join(' ', p.Device), p => p.Lab);
        return
            from patch in strip.Averaged()
            let key = string.Join(' ', patch.Device)
            where known.ContainsKey(key)
            select ((IReadOnlyList<double>)patch.Device, known[key], patch.Lab);
    }
}

public sealed record OtherLight(MCondition Chart, MCondition Strip)
    : Refusal($"The chart was read in {Words(Chart)}, the strip in {Words(Strip)}: they cannot be compared. Read the strip again in {Words(Chart)}.")
{
    private static string Words(MCondition condition) => condition is MCondition.Unknown ? "a condition that its file does not state" : condition.ToString();
}

public sealed record NoSpectra(bool InChart)
    : Refusal($"The {(InChart ? "chart" : "strip")} has no spectra, and the cause is found from spectra. Export the measurement again with them.");

public sealed record AnotherChart(int Shared, int Patches)
    : Refusal($"Only {Shared} of the strip's {Patches} patches are in this chart: is it the strip of another chart?");

public sealed record HalfAStrip(int Shared, int Fewest)
    : Refusal($"Only {Shared} patches were read; {Fewest} or more are needed. Is it half a strip?");

public sealed record NoCorners()
    : Refusal("The chart lacks a patch of bare paper, of an ink alone or of black, by which drifts are told apart.");

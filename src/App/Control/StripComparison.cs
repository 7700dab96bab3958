using Goodsheet.App.Profiles;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Measurement;
using Goodsheet.Room;
using Goodsheet.Room.Control;

namespace Goodsheet.App.Control;

/// <summary>A strip laid beside the chart its profile was made from.</summary>
internal sealed record StripComparison(MeasurementSet Chart, MeasurementSet Strip, StripVerdict Verdict, StripShift Shift)
{
    private const int Fewest = 12;

    public static async Task<Outcome<StripComparison>> ReadAsync(string chartFile, string stripFile, CancellationToken cancel)
    {
        var chart = await ChartReading.ReadAsync(chartFile, cancel);
        if (!chart.Granted)
        {
            return chart.Refusal;
        }

        var read = await ChartReading.ReadAsync(stripFile, cancel);
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
        var black = BlackCheck.Of(reference, strip);
        var verdict = new StripVerdict(
            shared, moved!.Value.Mean.Value, moved.Value.Largest.Value, found.Cause, found.Chance, found.Other, found.Explained, found.Tells, found.Sure,
            corrected.Applied, corrected.Before.Value, corrected.After.Value, corrected.Size.Value, black?.Then, black?.Now, black?.Wrong ?? false);
        return new StripComparison(reference, strip, verdict, StripShift.Of(Shifts(reference, strip), HouseNoise.Usual));
    }

    private static List<LabShift> Shifts(MeasurementSet reference, MeasurementSet strip)
    {
        var known = reference.Averaged().ToDictionary(p => string.Join(' ', p.Device), p => p.Lab);
        return
        [
            .. from patch in strip.Averaged()
               let key = string.Join(' ', patch.Device)
               where known.ContainsKey(key)
               let was = known[key]
               select new LabShift(patch.Lab.L - was.L, patch.Lab.A - was.A, patch.Lab.B - was.B),
        ];
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

using Goodsheet.App.Profiles;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Measurement;
using Goodsheet.Room;

namespace Goodsheet.App.Control;

/// <summary>Reads a strip beside the chart its profile was made from: how far it moved, why, and whether it helps.</summary>
public sealed class CheckStrip
{
    private const int Fewest = 12;

#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var chart = await ChartReading.ReadAsync(request.Chart, cancel);
        if (!chart.Granted)
        {
            return chart.Refusal;
        }

        var read = await ChartReading.ReadAsync(request.Strip, cancel);
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
            return new NoSpectra(Path.GetFileName(reference.HasSpectra ? request.Strip : request.Chart));
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
        return new Done(
            shared, moved!.Value.Mean.Value, moved.Value.Largest.Value, found.Cause, found.Chance, found.Other, found.Explained, found.Tells, found.Sure,
            corrected.Applied, corrected.Before.Value, corrected.After.Value, corrected.Size.Value);
    }
#pragma warning restore CA1822

    public sealed record Request(string Chart, string Strip);

    /// <summary>What a strip says; differences are dE00.</summary>
    public sealed record Done(
        int Patches, double Mean, double Largest, DriftCause Cause, double Chance, DriftCause Other, double Explained, bool Tells, bool Sure,
        bool CanCorrect, double Before, double After, double Change)
    {
        public string InWords => Cause is DriftCause.Nothing
            ? "It has not moved by more than noise: leave it alone."
            : Tells ? $"{(Sure ? "Moved" : "Probably moved")}: {Named(Cause)}, which explains {100 * Explained:0} % of it."
            : $"Moved, but one strip cannot tell why: {Named(Cause)} or {Named(Other)}. Clean the head and the white tile, print another.";

        public string Advice => CanCorrect
            ? $"Correcting the chart from this strip brings {Before:0.00} to {After:0.00}."
            : $"Correcting from this strip would bring {Before:0.00} to {After:0.00}: not enough to be worth it, so nothing is changed.";

        private static string Named(DriftCause cause) => cause switch
        {
            DriftCause.Paper => "the paper's white",
            DriftCause.AllInks => "all inks alike",
            DriftCause.Instrument => "everything alike, as by a dirty white tile",
            _ => $"the {cause.ToString().ToLowerInvariant()} ink alone",
        };
    }

    public sealed record OtherLight(MCondition Chart, MCondition Strip)
        : Refusal($"The chart was read in {Words(Chart)}, the strip in {Words(Strip)}: they cannot be compared. Read the strip again in {Words(Chart)}.")
    {
        private static string Words(MCondition condition) => condition is MCondition.Unknown ? "a condition that its file does not state" : condition.ToString();
    }

    public sealed record NoSpectra(string Name)
        : Refusal($"{Name} has no spectra, and the cause is found from spectra. Export the measurement again with them.");

    public sealed record AnotherChart(int Shared, int Patches)
        : Refusal($"Only {Shared} of the strip's {Patches} patches are in this chart: is it the strip of another chart?");

    public sealed record HalfAStrip(int Shared, int Fewest)
        : Refusal($"Only {Shared} patches were read; {Fewest} or more are needed. Is it half a strip?");

    public sealed record NoCorners()
        : Refusal("The chart lacks a patch of bare paper, of an ink alone or of black, by which drifts are told apart.");
}

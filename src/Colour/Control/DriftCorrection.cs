using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

namespace Goodsheet.Colour.Control;

/// <summary>A reference chart brought to what a strip says it would read now.</summary>
/// <param name="Chart">The corrected chart; the reference itself when nothing is to be changed.</param>
/// <param name="Applied">Whether anything was changed.</param>
/// <param name="Before">Mean difference of the strip from the reference readings.</param>
/// <param name="After">Mean difference of the strip from the corrected ones.</param>
/// <param name="Size">Mean change over the whole chart.</param>
/// <param name="Evidence">How much more than noise the correction explains, as an F ratio.</param>
/// <param name="Best">The chart as the strip would have it, whether or not that is applied.</param>
public sealed record DriftCorrection(MeasurementSet Chart, bool Applied, DeltaE00 Before, DeltaE00 After, DeltaE00 Size, double Evidence, MeasurementSet Best)
{
    private const double Enough = 6; // F of 10 and 62 degrees: with nothing drifted 3.8 was the most seen
    private const double WorthIt = 0.15; // dE00 on average: less is not seen, and the correction itself adds .04

    /// <summary>Corrects a chart from a strip.</summary>
    /// <param name="reference">The chart the profile was made from, with spectra.</param>
    /// <param name="strip">The strip as read now, of patches of that chart.</param>
    /// <returns>Null where strip and chart do not fit (<see cref="StripFit.Of"/>).</returns>
    public static DriftCorrection? Of(MeasurementSet reference, MeasurementSet strip)
    {
        if (StripFit.Of(reference, strip) is not { } fit)
        {
            return null;
        }

        var (drift, left) = fit.Explain(DriftDiagnosis.Everything, 3);
        var evidence = (fit.Nothing(1) - left) / DriftForm.Numbers / (left / ((3 * fit.Patches) - DriftForm.Numbers));
        var corrected = reference with
        {
            Patches = [.. reference.Patches.Select(p =>
            {
                // The form's own change is added to the reading, so that what the form cannot draw stays as it was read.
                var spectrum = fit.Form.Changed(p.Spectrum!, fit.Form.Coverage(p.Spectrum!), drift);
                return p with { Spectrum = spectrum, Lab = DriftForm.Colour(spectrum) };
            })],
        };
        var size = Mean(reference, corrected);
        var (before, after) = (Mean(strip, reference), Mean(strip, corrected));
        var applied = evidence >= Enough && size.Value >= WorthIt && after.Value < before.Value;
        return new(applied ? corrected : reference, applied, before, after, size, evidence, corrected);
    }

    private static DeltaE00 Mean(MeasurementSet from, MeasurementSet to) =>
        Repeatability.Between(from, to)?.Mean ?? new(0);
}

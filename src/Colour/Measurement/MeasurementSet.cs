using System.Collections.Immutable;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Measurement;

/// <summary>What the device values of a chart mean.</summary>
public enum DeviceSpace
{
    /// <summary>The file states no device values: colours alone.</summary>
    None,

    /// <summary>One channel, 0 is full ink and 1 is paper.</summary>
    Grey,

    /// <summary>Red, green, blue: 0 is full ink and 1 is paper.</summary>
    Rgb,

    /// <summary>Cyan, magenta, yellow, black: 0 is paper and 1 is full ink.</summary>
    Cmyk,

    /// <summary>Any other set of inks: 0 is paper and 1 is full ink.</summary>
    Inks,
}

/// <summary>How a measurement was lit (ISO 13655:2017).</summary>
public enum MCondition
{
    /// <summary>The file does not say.</summary>
    Unknown,

    /// <summary>Tungsten, with whatever UV it has.</summary>
    M0,

    /// <summary>D50 with its UV: what a brightened paper looks like in the viewing booth.</summary>
    M1,

    /// <summary>Without UV.</summary>
    M2,

    /// <summary>Without UV, and polarised.</summary>
    M3,
}

/// <summary>One patch as read.</summary>
/// <param name="Id">The sample id of the file, else its row number.</param>
/// <param name="Device">Device values, each 0 to 1; empty where the file has none.</param>
/// <param name="Lab">D50, 2°, relative to the perfect diffuser: from the spectrum where there is one.</param>
/// <param name="Spectrum">The reflectance, where the file has it.</param>
/// <param name="Name">The sample name of the file, if it has one: often the place on the chart.</param>
public sealed record Patch(string Id, ImmutableArray<double> Device, Lab Lab, Spectrum? Spectrum = null, string? Name = null);

/// <summary>Readings of one device value, averaged.</summary>
/// <param name="Device">Device values, each 0 to 1.</param>
/// <param name="Lab">The mean colour.</param>
/// <param name="Count">How many readings are behind it, 1 or more.</param>
/// <param name="Spectrum">The mean reflectance, where all readings have one on the same wavelengths.</param>
public sealed record AveragedPatch(ImmutableArray<double> Device, Lab Lab, int Count, Spectrum? Spectrum);

/// <summary>A chart that was read: patches in the order of the file, under one M-condition.</summary>
/// <param name="Space">What the device values mean.</param>
/// <param name="Channels">How many device values a patch has; 0 where the file has none.</param>
/// <param name="Condition">How it was lit, if the file says so.</param>
/// <param name="Patches">The patches, in the order of the file: chart order, which need not be that of the ids.</param>
public sealed record MeasurementSet(DeviceSpace Space, int Channels, MCondition Condition, ImmutableArray<Patch> Patches)
{
    /// <summary>Whether every patch has a spectrum.</summary>
    public bool HasSpectra => Patches.All(p => p.Spectrum is not null);

    /// <summary>The patches with repeats of the same device value averaged, in order of first appearance.</summary>
    public ImmutableArray<AveragedPatch> Averaged() =>
    [
        .. Patches.GroupBy(p => p.Device, SameValues.Instance).Select(g => new AveragedPatch(
            g.Key, new(g.Average(p => p.Lab.L), g.Average(p => p.Lab.A), g.Average(p => p.Lab.B)), g.Count(), Mean([.. g]))),
    ];

    private static Spectrum? Mean(Patch[] repeats)
    {
        if (repeats[0].Spectrum is not { } first || repeats.Any(r => r.Spectrum is not { } s
            || s.StartNm != first.StartNm || s.StepNm != first.StepNm || s.Values.Length != first.Values.Length))
        {
            return null;
        }

        return repeats.Length == 1 ? first : first with
        {
            Values = [.. Enumerable.Range(0, first.Values.Length).Select(i => repeats.Average(r => r.Spectrum!.Values[i]))],
        };
    }

    // Device values come from text: equal text gives equal bits, so no tolerance is wanted.
    private sealed class SameValues : IEqualityComparer<ImmutableArray<double>>
    {
        public static readonly SameValues Instance = new();

        public bool Equals(ImmutableArray<double> x, ImmutableArray<double> y) => x.AsSpan().SequenceEqual(y.AsSpan());

        public int GetHashCode(ImmutableArray<double> values)
        {
            var hash = default(HashCode);
            foreach (var value in values)
            {
                hash.Add(value);
            }

            return hash.ToHashCode();
        }
    }
}

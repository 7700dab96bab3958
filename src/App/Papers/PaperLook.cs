using System.Collections.Immutable;
using System.Text.Json;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;

namespace Goodsheet.App.Papers;

/// <summary>A paper's figures as they are stored beside the reading they come from: a form of its own, so that the library may change.</summary>
public sealed record PaperLook(
    string Condition, int Patches, double[]? White, double[] Darkest, double DMax, double? Whiteness, double? Tint, bool WhitenessHolds,
    double? Brightness, double? Grain, double? Solids, double? Volume, double[][]? Reach, double[][] Greys, double? StepsBack, int Channels, double? VolumeFollowed = null)
{
    public static PaperLook Of(PaperFigures f) => new(
        f.Condition.ToString(), f.Patches, f.White is { } w ? Of(w) : null, Of(f.Darkest), f.DMax, f.Whiteness, f.Tint, f.WhitenessHolds,
        f.Brightness, f.Grain, f.Solids, f.Volume, f.Reach is { } r ? [.. r.Chroma.Select(row => row.Select(c => Math.Round(c, 2)).ToArray())] : null,
        [.. f.Greys.Select(Of)], f.StepsBack, f.Channels, f.VolumeFollowed);

    public static string Write(PaperFigures figures) => JsonSerializer.Serialize(Of(figures));

    /// <summary>None where nothing was kept, or in a form this version does not know.</summary>
    public static PaperFigures? Read(string? json)
    {
        try
        {
            return json is null ? null : JsonSerializer.Deserialize<PaperLook>(json)?.ToFigures();
        }
        catch (JsonException)
        {
            return null;
        }
    }

    public PaperFigures ToFigures() => new()
    {
        Condition = Enum.TryParse<MCondition>(Condition, out var condition) ? condition : MCondition.Unknown,
        Channels = Channels,
        Patches = Patches,
        White = White is { } w ? ToLab(w) : null,
        Darkest = ToLab(Darkest),
        DMax = DMax,
        Whiteness = Whiteness,
        Tint = Tint,
        WhitenessHolds = WhitenessHolds,
        Brightness = Brightness,
        Grain = Grain,
        Solids = Solids,
        Volume = Volume,
        VolumeFollowed = VolumeFollowed,
        Reach = Reach is null ? null : new GamutReach([.. Reach.Select(row => row.ToImmutableArray())]),
        Greys = [.. Greys.Select(ToLab)],
        StepsBack = StepsBack,
    };

    private static double[] Of(Lab lab) => [lab.L, lab.A, lab.B];

    private static Lab ToLab(double[] v) => new(v[0], v[1], v[2]);
}

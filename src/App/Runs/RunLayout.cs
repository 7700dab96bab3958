using System.Text.Json;

namespace Goodsheet.App.Runs;

/// <summary>A run's layout as it is kept with it: the drawing, and the cuts in order.</summary>
public sealed record RunLayout(string Svg, IReadOnlyList<string> Cuts, IReadOnlyList<string> Pieces, double UsedPercent, int Sheets)
{
    public string ToJson() => JsonSerializer.Serialize(this);

    public static RunLayout Read(string json) => JsonSerializer.Deserialize<RunLayout>(json)!;
}

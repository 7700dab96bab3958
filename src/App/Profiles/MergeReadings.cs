using Goodsheet.Colour.Measurement;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Puts measurement files of one chart together into one CGATS file.</summary>
public sealed class MergeReadings
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var output = Path.GetFullPath(request.Out);
        if (!Directory.Exists(Path.GetDirectoryName(output)))
        {
            return new MakeChart.NoSuchFolder(Path.GetDirectoryName(output)!);
        }

        var merged = await ReadingMerge.OfAsync(request.Files, request.Condition, cancel);
        if (!merged.Granted)
        {
            return merged.Refusal;
        }

        // Whole under its name, or not at all.
        await File.WriteAllTextAsync(output + ".coming", CgatsWriter.Write(merged.Value.Set, "Goodsheet", Path.GetFileNameWithoutExtension(output)), cancel);
        File.Move(output + ".coming", output, overwrite: true);
        return new Done(output, merged.Value.Set.Patches.Length, merged.Value.Noise, merged.Value.Findings);
    }
#pragma warning restore CA1822

    public sealed record Request(IReadOnlyList<string> Files, string Out, MCondition? Condition = null);

    /// <param name="File">What was written.</param>
    /// <param name="Patches">How many different patches.</param>
    /// <param name="Noise">By how much two readings of a patch differ on average, dE00; none where none was read twice.</param>
    /// <param name="Findings">What to know.</param>
    public sealed record Done(string File, int Patches, double? Noise, IReadOnlyList<string> Findings);
}

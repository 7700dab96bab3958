using Goodsheet.Colour.Measurement;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Reads a measurement file and says what is in it and what looks wrong.</summary>
public sealed class ReadMeasurement
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var read = await ChartReading.ReadAsync(request.File, cancel, request.Condition);
        if (!read.Granted)
        {
            return read.Refusal;
        }

        if (request.Strip is < 2)
        {
            return new NoStrip(request.Strip.Value);
        }

        var set = read.Value.Set!;
        var doubts = await Task.Run(() => ChartReading.Doubt(set, request.Strip, cancel), cancel);
        return new Done(
            set.Space.ToString(), set.Channels, set.Condition.ToString(), set.Patches.Length, set.Averaged().Length, set.HasSpectra,
            [.. doubts.Order, .. read.Value.Findings.Select(f => f.Message)], doubts.Patches);
    }
#pragma warning restore CA1822

    /// <param name="File">The file.</param>
    /// <param name="Strip">Patches to a strip, where the file does not tell.</param>
    /// <param name="Condition">Which M-condition to take of a file that holds several.</param>
    public sealed record Request(string File, int? Strip = null, MCondition? Condition = null);

    public sealed record Done(
        string Space, int Channels, string Condition, int Patches, int Distinct, bool HasSpectra,
        IReadOnlyList<string> Findings, IReadOnlyList<Suspect> Suspects);

    public sealed record NoStrip(int Length) : Refusal($"A strip of {Length} patches cannot be: at least 2.");
}

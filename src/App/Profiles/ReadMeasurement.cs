using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Reads a measurement file and says what is in it and what looks wrong.</summary>
public sealed class ReadMeasurement
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var read = await ChartReading.ReadAsync(request.File, cancel);
        if (!read.Granted)
        {
            return read.Refusal;
        }

        var set = read.Value.Set!;
        return new Done(
            set.Space.ToString(), set.Channels, set.Condition.ToString(), set.Patches.Length, set.Averaged().Length, set.HasSpectra,
            [.. read.Value.Findings.Select(f => f.Message)], ChartReading.Suspects(set, cancel));
    }
#pragma warning restore CA1822

    public sealed record Request(string File);

    public sealed record Done(
        string Space, int Channels, string Condition, int Patches, int Distinct, bool HasSpectra,
        IReadOnlyList<string> Findings, IReadOnlyList<Suspect> Suspects);
}

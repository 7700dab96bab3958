using Goodsheet.Room;

namespace Goodsheet.App.Control;

/// <summary>Reads a strip beside the chart its profile was made from: how far it moved, why, and whether it helps.</summary>
public sealed class CheckStrip
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<StripVerdict>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var compared = await StripComparison.ReadAsync(request.Chart, request.Strip, request.Profile, cancel);
        return compared.Granted ? compared.Value.Verdict : compared.Refusal;
    }
#pragma warning restore CA1822

    /// <param name="Chart">The file of the chart.</param>
    /// <param name="Strip">The file of the strip.</param>
    /// <param name="Profile">The profile made from that chart, to see whether colours were converted twice; none to leave that out.</param>
    public sealed record Request(string Chart, string Strip, string? Profile = null);
}

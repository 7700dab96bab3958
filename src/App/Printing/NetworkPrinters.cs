using Goodsheet.Room;

namespace Goodsheet.App.Printing;

/// <summary>The printers that are reached over the network.</summary>
public sealed class NetworkPrinters : IDisposable
{
    // A printer that is on answers at once; a page does not wait longer for one that is not.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    private readonly HttpClient asking = new() { Timeout = Patience };

    // A file of gigabytes takes its time; a line that is cut shows by itself.
    private readonly HttpClient sending = new() { Timeout = TimeSpan.FromHours(1) };

    public void Dispose()
    {
        asking.Dispose();
        sending.Dispose();
    }

    /// <summary>How a printer is now.</summary>
    public async Task<Outcome<PrinterSays>> AskAsync(string address, CancellationToken cancel)
    {
        if (IppClient.Address(address) is not { } uri)
        {
            return new NoAddress(address);
        }

        var state = await ToAsk(uri).StateAsync(cancel);
        return state.Granted ? PrinterSays.Of(state.Value) : state.Refusal;
    }

    internal IppClient ToSend(Uri address) => new(sending, address);

    internal IppClient ToAsk(Uri address) => new(asking, address);
}

public sealed record NoAddress(string Typed) : Refusal($"“{Typed}” is no address of a printer. It begins with ipp:// or ipps://, as in ipp://192.168.1.20/ipp/print.");

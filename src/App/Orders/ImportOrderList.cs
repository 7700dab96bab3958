using System.Globalization;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;

namespace Goodsheet.App.Orders;

/// <summary>Takes a list of orders in as long work. About: "Order list HASH".</summary>
public sealed class ImportOrderList(RoomStore room, FileShelf files, ImportOrders import, WorkDesk desk) : LongWork(room)
{
    private const int MostNamed = 8;

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var hash = about.Split(' ')[^1];
        if (await files.TextAsync(hash, OrderListCsv.MostBytes, cancel) is not { } csv)
        {
            return "The list is not here any more, or too large. Bring it in again.";
        }

        var percent = 0;
        var outcome = await import.RunAsync(new(AskedBy, csv, Look: false), new Steps(p =>
        {
            if ((int)(98 * p) is var now && now > percent)
            {
                percent = now;
                _ = tell(now);
            }
        }), cancel);
        if (!outcome.Granted)
        {
            return outcome.Refusal.Message;
        }

        await desk.HandOverForgottenAsync(cancel);
        var done = outcome.Value;
        var refused = done.Refused.ToList();
        var named = string.Join(" ", refused.Take(MostNamed).Select(l => $"Line {l.Number}: {l.Says}."));
        return string.Create(CultureInfo.CurrentCulture, $"{done.Taken} lines taken in, {done.TakenBefore} were here already, {refused.Count} refused. {named}");
    }

    // At once and in order, where the framework's own would hand each on to another thread.
    private sealed class Steps(Action<double> say) : IProgress<double>
    {
        public void Report(double value) => say(value);
    }
}

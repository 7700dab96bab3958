using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Goodsheet.App.Work;

namespace Goodsheet.App.Orders;

/// <summary>Goes through the watched folder as long as the room is open.</summary>
internal sealed partial class FolderWatch(TakeFromFolder take, WorkDesk desk, TimeProvider clock, ILogger<FolderWatch> log) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(2);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Every, clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                var done = await take.RunAsync(stoppingToken);
                await desk.HandOverAsync(done.Looks, stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Failed(log, e); // the next pass tries again
            }
        }
    }

    [LoggerMessage(1, LogLevel.Error, "The watched folder could not be gone through")]
    private static partial void Failed(ILogger log, Exception e);
}

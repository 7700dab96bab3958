using System.Runtime.ExceptionServices;

namespace Goodsheet.Imaging;

/// <summary>The same work on every core, each taking what is next.</summary>
internal static class EachCore
{
    /// <summary>Runs the work on all cores until each has come to its end.</summary>
    /// <remarks>What one throws is thrown here, the first of it; the others come to their end as they will.</remarks>
    public static void Run(Action work)
    {
        try
        {
            Parallel.For(0, Environment.ProcessorCount, _ => work());
        }
        catch (AggregateException e)
        {
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }
    }
}

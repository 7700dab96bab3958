using Goodsheet.Cli.Tests.Orders;
using Goodsheet.Cli.Tests.Papers;
using Goodsheet.Cli.Tests.Shelf;
using Xunit.Sdk;
using Xunit.v3;

[assembly: TestCollectionOrderer(typeof(Goodsheet.Cli.Tests.LongestFirst))]

namespace Goodsheet.Cli.Tests;

/// <summary>The classes that take longest begin first: begun last, one would run alone and leave a core idle.</summary>
public sealed class LongestFirst : ITestCollectionOrderer
{
    private static readonly string[] Long =
    [
        nameof(MakingPrintsWalkTest), nameof(WalkTest), nameof(ProvingWalkTest), nameof(BuyingWalkTest), nameof(DemoTest), nameof(KilledTest), nameof(KilledGoodsInTest), nameof(KilledBatchTest),
    ];

    /// <inheritdoc/>
    public IReadOnlyCollection<T> OrderTestCollections<T>(IReadOnlyCollection<T> testCollections)
        where T : ITestCollection => [.. testCollections.OrderBy(Place)];

    private static int Place<T>(T collection)
        where T : ITestCollection =>
        Array.FindIndex(Long, name => collection.TestCollectionDisplayName.Contains($".{name} ", StringComparison.Ordinal)) is >= 0 and var at ? at : Long.Length;
}

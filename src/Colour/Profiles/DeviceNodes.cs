using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>Where the nodes of a table from device values lie along each channel: all channels alike.</summary>
internal sealed class DeviceNodes
{
    // A driver's tables bend at whole levels, 8 of them apart (docs/decisions/0400).
    private const int Levels = 255;
    private const int LevelStep = 8;

    /// <summary>How many nodes <see cref="OnLevels"/> has.</summary>
    public const int OfLevels = (Levels / LevelStep) + 2;

    private readonly double[] at;    // 0 to 1, rising
    private readonly double[] along; // at each level: which node, and how far on towards the next

    private DeviceNodes(double[] at, bool isEven)
    {
        (this.at, IsEven, along) = (at, isEven, new double[Levels + 1]);
        for (int level = 0, node = 0; level <= Levels; level++)
        {
            var device = (double)level / Levels;
            node += node < at.Length - 2 && device >= at[node + 1] ? 1 : 0;
            along[level] = node + ((device - at[node]) / (at[node + 1] - at[node]));
        }
    }

    /// <summary>How many nodes there are.</summary>
    public int Count => at.Length;

    /// <summary>Whether they are evenly apart.</summary>
    public bool IsEven { get; }

    /// <summary>Nodes on the bends of a driver's tables for RGB, where 0 is full ink.</summary>
    public static DeviceNodes OnLevels() => new(
    [
        .. Enumerable.Range(0, (Levels / LevelStep) + 1).Select(i => (double)i * LevelStep / Levels), 1,
    ], isEven: false);

    /// <summary>Nodes evenly apart.</summary>
    /// <param name="count">2 or more, at most one a level.</param>
    public static DeviceNodes Even(int count) => new([.. Enumerable.Range(0, count).Select(i => i / (count - 1.0))], isEven: true);

    /// <summary>The device value of a node.</summary>
    public double At(int node) => at[node];

    /// <summary>Which node a device value lies at or beyond, and what part of the way on to the next.</summary>
    public double Along(double device)
    {
        unchecked
        {
            var level = Math.Clamp(device, 0, 1) * Levels;
            var below = Math.Min((int)level, Levels - 1);
            return along[below] + ((level - below) * (along[below + 1] - along[below]));
        }
    }

    /// <summary>The same as the input curve of a table, which an engine reads as <see cref="Along"/> does.</summary>
    public ToneCurve Curve() => IsEven ? ToneCurve.Identity : SampledCurve.Of(Levels + 1, x => Along(x) / (Count - 1));
}

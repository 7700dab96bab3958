using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;

namespace Goodsheet.Room.Profiles;

/// <summary>What the readings of a check tile say of an instrument.</summary>
/// <param name="Moved">The newest reading from the first; none with fewer than two.</param>
/// <param name="Words">In words.</param>
/// <param name="IsSound">Whether it may be measured with.</param>
public sealed record TileState(DeltaE00? Moved, string Words, bool IsSound)
{
    // Common practice, no source: hand-held instruments repeat on a tile to about .05 and agree with themselves over a year to .3.
    private const double Sound = 0.3;

    /// <summary>Judges tile readings in order of time: the first is what the rest are held against.</summary>
    /// <remarks>An instrument that was calibrated on a dirty white tile takes the dirt for white: everything reads lighter.</remarks>
    public static TileState Of(IReadOnlyList<Lab> readings)
    {
        if (readings.Count < 2)
        {
            return new(null, readings.Count == 0 ? "The check tile was never read." : "Read once: the next reading is held against it.", true);
        }

        var (first, last) = (readings[0], readings[^1]);
        var moved = CieDe2000.Between(first, last);
        return moved.Value <= Sound ? new(moved, "It reads the check tile as it did at first.", true)
            : last.L - first.L > Sound / 2 ? new(moved, "It reads lighter than it did: the white tile is probably dirty. Clean it as its maker says, calibrate, and read the check tile again.", false)
            : new(moved, "It reads otherwise than it did: lamp, aperture or check tile. Clean, calibrate and read again; if it stays, have it certified.", false);
    }
}

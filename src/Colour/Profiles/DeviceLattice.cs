using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Profiles;

/// <summary>A printing condition on a grid: what the finished profile's table will say between its nodes, and beyond them.</summary>
/// <remarks>
/// Inside the cube of device values it interpolates exactly as engines do. Outside it goes on in a straight line, so
/// that an inversion can step over the gamut's surface and come back.
/// </remarks>
public sealed class DeviceLattice
{
    // Slopes are taken over this part of a cell: a kink at a node does not throw the search.
    private const double SlopePart = 0.5;

    private const double TurnStep = 1e-3; // a quarter of a level: within a cell, for folds begin and end at nodes

    private readonly int[] grid;
    private readonly double[] lab;
    private readonly double step;
    private readonly DeviceNodes nodes;

    /// <param name="grid">Nodes along each channel, 1 to 4 channels, all alike and evenly apart.</param>
    /// <param name="lab">L*, a*, b* of every node, the last channel fastest.</param>
    public DeviceLattice(int[] grid, double[] lab)
        : this(grid, lab, DeviceNodes.Even(grid[0]))
    {
    }

    /// <param name="grid">Nodes along each channel, 1 to 4 channels, all alike.</param>
    /// <param name="lab">L*, a*, b* of every node, the last channel fastest.</param>
    /// <param name="nodes">Where they lie along each channel.</param>
    internal DeviceLattice(int[] grid, double[] lab, DeviceNodes nodes)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(lab.Length, 3 * grid.Aggregate(1, (count, points) => count * points), nameof(lab));
        (this.grid, this.lab, this.nodes) = (grid, lab, nodes);
        step = SlopePart / (grid[0] - 1);
    }

    /// <summary>How many device channels there are.</summary>
    public int Channels => grid.Length;

    /// <summary>Nodes along each channel.</summary>
    public ReadOnlySpan<int> Grid => grid;

    /// <summary>L*, a*, b* of every node.</summary>
    public ReadOnlySpan<double> Values => lab;

    /// <summary>The colour at a device value; beyond 0 to 1 in a straight line.</summary>
    public void Evaluate(ReadOnlySpan<double> device, Span<double> colour)
    {
        Inside(device, colour);
        Span<double> at = stackalloc double[4];
        Span<double> slope = stackalloc double[3];
        at = at[..device.Length];
        for (var i = 0; i < device.Length; i++)
        {
            var over = device[i] - Math.Clamp(device[i], 0, 1);
            if (over != 0)
            {
                device.CopyTo(at);
                Slope(at, i, slope);
                for (var k = 0; k < 3; k++)
                {
                    colour[k] += over * slope[k];
                }
            }
        }
    }

    /// <summary>How the colour changes with each channel: three values a channel.</summary>
    public void Slopes(ReadOnlySpan<double> device, Span<double> slopes)
    {
        Span<double> at = stackalloc double[4];
        at = at[..device.Length];
        for (var i = 0; i < device.Length; i++)
        {
            device.CopyTo(at);
            Slope(at, i, slopes.Slice(3 * i, 3));
        }
    }

    /// <summary>Which way round colours run here: the sign of the volume that a little of each channel spans; three channels.</summary>
    /// <remarks>Where it turns, the condition folds back over itself: more of an ink leads to colours that less of it prints too.</remarks>
    internal int Turn(ReadOnlySpan<double> device)
    {
        Span<double> at = stackalloc double[3];
        Span<double> s = stackalloc double[9];
        for (var i = 0; i < 3; i++)
        {
            device.CopyTo(at);
            Slope(at, i, s.Slice(3 * i, 3), TurnStep);
        }

        var volume = (s[0] * ((s[4] * s[8]) - (s[5] * s[7]))) - (s[1] * ((s[3] * s[8]) - (s[5] * s[6]))) + (s[2] * ((s[3] * s[7]) - (s[4] * s[6])));
        return Math.Sign(volume);
    }

    private void Slope(Span<double> at, int channel, Span<double> slope) => Slope(at, channel, slope, step);

    private void Slope(Span<double> at, int channel, Span<double> slope, double step)
    {
        Span<double> low = stackalloc double[3];
        var middle = Math.Clamp(at[channel], 0, 1);
        var (from, to) = (Math.Max(0, middle - step), Math.Min(1, middle + step));
        at[channel] = from;
        Inside(at, low);
        at[channel] = to;
        Inside(at, slope);
        for (var k = 0; k < 3; k++)
        {
            slope[k] = (slope[k] - low[k]) / (to - from);
        }
    }

    private void Inside(ReadOnlySpan<double> device, Span<double> colour)
    {
        if (device.Length == 3)
        {
            InsideCube(device[0], device[1], device[2], colour);
            return;
        }

        Span<double> place = stackalloc double[4];
        place = place[..device.Length];
        for (var c = 0; c < place.Length; c++)
        {
            place[c] = nodes.Along(device[c]) / (grid[c] - 1);
        }

        Span<int> corners = stackalloc int[LatticeCell.MostCorners];
        Span<double> weights = stackalloc double[LatticeCell.MostCorners];
        var count = LatticeCell.Find(place, grid, Interpolation.Tetrahedral, corners, weights);
        var (l, a, b) = (0.0, 0.0, 0.0);
        for (var c = 0; c < count; c++)
        {
            var at = 3 * corners[c];
            l += weights[c] * lab[at];
            a += weights[c] * lab[at + 1];
            b += weights[c] * lab[at + 2];
        }

        (colour[0], colour[1], colour[2]) = (l, a, b);
    }

    // The same for three channels, which inversions ask for millions of times.
    private void InsideCube(double x, double y, double z, Span<double> colour)
    {
        // Values are within 0 to 1 and places within the grid: no need to look for overflows, millions of times.
        unchecked
        {
            var last = grid[0] - 1; // all alike
            var (sy, sz) = (3 * (last + 1), 3);
            var sx = sy * (last + 1);
            var (fx, fy, fz) = (nodes.Along(x), nodes.Along(y), nodes.Along(z));
            var (ix, iy, iz) = (Math.Min((int)fx, last - 1), Math.Min((int)fy, last - 1), Math.Min((int)fz, last - 1));
            (fx, fy, fz) = (fx - ix, fy - iy, fz - iz);
            var near = (ix * sx) + (iy * sy) + (iz * sz);

            // From the near corner to the far one, along the channel with the largest fraction first.
            if (fx < fy)
            {
                (fx, fy, sx, sy) = (fy, fx, sy, sx);
            }

            if (fy < fz)
            {
                (fy, fz, sy, sz) = (fz, fy, sz, sy);
            }

            if (fx < fy)
            {
                (fx, fy, sx, sy) = (fy, fx, sy, sx);
            }

            var (second, third) = (near + sx, near + sx + sy);
            var far = third + sz;
            for (var k = 0; k < 3; k++)
            {
                colour[k] = ((1 - fx) * lab[near + k]) + ((fx - fy) * lab[second + k]) + ((fy - fz) * lab[third + k]) + (fz * lab[far + k]);
            }
        }
    }
}

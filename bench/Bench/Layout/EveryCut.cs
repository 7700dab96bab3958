namespace Goodsheet.Bench.Layout;

/// <summary>
/// Whether up to 32 different pieces, fixed, can be cut from a strip of a given height at all. Every way is tried that does not lose
/// more paper than that height has to lose, so a "no" is a proof.
/// </summary>
/// <remarks>
/// From below: the rectangles that can be cut into pieces of up to half of all their area, each joined from two smaller ones (Wang,
/// Oper. Res. 31(3), 1983, from memory). One is dropped if it loses too much, together with what must stay empty beside and
/// above it because no sum of widths or heights fills it; or if the same pieces fit one no wider and no higher.
/// From above: of the two parts of a cut at most one holds more than half. So from the whole strip parts of up to half are cut
/// off one after another, until the rest holds no more than half, too, and is looked up among the rectangles.
/// Written anew, without a line of the product's own search of all ways.
/// </remarks>
internal sealed class EveryCut
{
    private const int Batch = 1 << 22;
    private const int Few = 18;

    private readonly int wide, high, mayLose;
    private readonly long half;
    private readonly int[] areas, lostWide, lostHigh;
    private readonly Sizes[] sizes;
    private readonly List<ulong> made = [];
    private readonly Dictionary<uint, int> firstOf = []; // where a choice of pieces begins among all rectangles
    private readonly HashSet<ulong> seen = [];
    private readonly Func<bool> stop;
    private Sizes all = new([], 0, 0);

    public EveryCut(Instance one, int height, Func<bool> stop)
    {
        (wide, high, this.stop) = ((int)one.Width, height, stop);
        var (widths, heights) = (one.Pieces.Select(p => (int)p.Width.Micrometres).ToArray(), one.Pieces.Select(p => (int)p.Height.Micrometres).ToArray());
        areas = [.. widths.Zip(heights, (w, h) => w * h)];
        mayLose = (wide * high) - areas.Sum();
        half = areas.Length <= Few ? areas.Sum() : areas.Sum() / 2; // few are joined from below up to the whole
        (lostWide, lostHigh) = (Lost(widths, wide), Lost(heights, high));
        sizes = new Sizes[areas.Length + 1];
        sizes[1] = new([.. widths.Zip(heights).Select((p, i) => new Part(1u << i, p.First, p.Second, 0))], wide, high);
    }

    public long Rectangles { get; private set; }

    /// <summary>None if it was told to stop.</summary>
    public bool? Can()
    {
        if (mayLose < 0)
        {
            return false;
        }

        for (var many = 2; many < sizes.Length; many++)
        {
            for (var few = 1; few < many; few++)
            {
                // Of two parts the one that is higher, or wider, is looked for; both ways round, so each pair is met.
                var (one, other) = (sizes[few], sizes[many - few]);
                if (!Join(one.ByHigh, other.ByHigh, wide, false) || !Join(one.ByWide, other.ByWide, high, true))
                {
                    return null;
                }
            }

            sizes[many] = new(Least(), wide, high);
        }

        var parts = sizes.Skip(1).SelectMany(s => s.Parts).ToArray();
        Rectangles = parts.Length;
        for (var i = 0; i < parts.Length; i++)
        {
            firstOf.TryAdd(parts[i].Pieces, i);
        }

        all = new(parts, wide, high);
        return Cuts(uint.MaxValue >> (32 - areas.Length), wide, high);
    }

    /// <summary>Joins each part with those that are as high or higher, side by side; or the same turned.</summary>
    private bool Join(Part[][] ones, Part[][] others, int most, bool turned)
    {
        for (var low = 0; low < ones.Length; low++)
        {
            foreach (var one in ones[low])
            {
                if (stop())
                {
                    return false;
                }

                for (var top = low; top < others.Length; top++)
                {
                    var may = mayLose - one.Waste - ((top - low) * one.Along);
                    if (may < 0)
                    {
                        break;
                    }

                    foreach (ref readonly var other in others[top].AsSpan())
                    {
                        if (other.Waste > may)
                        {
                            break;
                        }

                        if ((one.Pieces & other.Pieces) == 0 && one.Along + other.Along <= most)
                        {
                            Offer(one.Pieces | other.Pieces, turned ? top : one.Along + other.Along, turned ? one.Along + other.Along : top);
                        }
                    }
                }
            }
        }

        return true;
    }

    private void Offer(uint pieces, int w, int h)
    {
        var area = Area(pieces);
        if (area <= half && (w * h) - area + (lostWide[wide - w] * h) + (lostHigh[high - h] * w) <= mayLose)
        {
            made.Add(((ulong)pieces << 32) | ((ulong)w << 16) | (uint)h);
            if (made.Count % Batch == 0)
            {
                Once();
            }
        }
    }

    private void Once()
    {
        made.Sort();
        var to = 0;
        for (var i = 0; i < made.Count; i++)
        {
            if (i == 0 || made[i] != made[to - 1])
            {
                made[to++] = made[i];
            }
        }

        made.RemoveRange(to, made.Count - to);
    }

    /// <summary>What was made, without what takes no less in either direction than another of the same pieces.</summary>
    private List<Part> Least()
    {
        Once();
        var least = new List<Part>();
        var lowest = int.MaxValue;
        foreach (var key in made)
        {
            var (pieces, w, h) = ((uint)(key >> 32), (int)((key >> 16) & 0xFFFF), (int)(key & 0xFFFF));
            lowest = least.Count > 0 && least[^1].Pieces == pieces ? lowest : int.MaxValue;
            if (h < lowest)
            {
                lowest = h;
                least.Add(new(pieces, w, h, (int)((w * h) - Area(pieces))));
            }
        }

        made.Clear();
        return least;
    }

    /// <summary>Whether these pieces can be cut from a rectangle.</summary>
    private bool? Cuts(uint pieces, int w, int h)
    {
        var area = Area(pieces);
        var may = (int)((w * h) - area);
        if (area <= half)
        {
            return may >= 0 && IsKnown(pieces, w, h);
        }

        if (may < 0 || !seen.Add(((ulong)pieces << 32) | ((ulong)w << 16) | (uint)h))
        {
            return false;
        }

        return CutOff(all.ByWide, w, h, false) switch { false => CutOff(all.ByHigh, h, w, true), var found => found };

        bool? CutOff(Part[][] parts, int across, int along, bool turned)
        {
            for (var size = across; size > 0 && across - size <= may; size--)
            {
                if (stop())
                {
                    return null;
                }

                foreach (var part in parts[size])
                {
                    if (part.Waste > may)
                    {
                        break;
                    }

                    if ((part.Pieces & ~pieces) == 0 && part.Along < along && ((across - size) * part.Along) + part.Waste <= may
                        && (turned ? Cuts(pieces & ~part.Pieces, w - part.Along, h) : Cuts(pieces & ~part.Pieces, w, h - part.Along)) is not false and var found)
                    {
                        return found;
                    }
                }
            }

            return false;
        }
    }

    private bool IsKnown(uint pieces, int w, int h)
    {
        var parts = all.Parts;
        for (var i = firstOf.GetValueOrDefault(pieces, parts.Count); i < parts.Count && parts[i].Pieces == pieces; i++)
        {
            if (parts[i].Along <= w && parts[i].Across <= h)
            {
                return true;
            }
        }

        return false;
    }

    private long Area(uint pieces)
    {
        long sum = 0;
        for (; pieces != 0; pieces &= pieces - 1)
        {
            sum += areas[System.Numerics.BitOperations.TrailingZeroCount(pieces)];
        }

        return sum;
    }

    /// <summary>Of each length up to a limit, how much no sum of the pieces' lengths can fill.</summary>
    private static int[] Lost(int[] lengths, int limit)
    {
        var sums = new bool[limit + 1];
        sums[0] = true;
        foreach (var length in lengths)
        {
            for (var at = limit; at >= length; at--)
            {
                sums[at] |= sums[at - length];
            }
        }

        var (lost, last) = (new int[limit + 1], 0);
        for (var at = 0; at <= limit; at++)
        {
            last = sums[at] ? at : last;
            lost[at] = at - last;
        }

        return lost;
    }

    /// <summary>A rectangle that these pieces can be cut from; along what is joined, and across it.</summary>
    private readonly record struct Part(uint Pieces, int Along, int Across, int Waste)
    {
        public Part Turned => new(Pieces, Across, Along, Waste);
    }

    /// <summary>Rectangles by their height, along is wide; and by their width, along is high. Those that lose least come first.</summary>
    private sealed class Sizes(IReadOnlyList<Part> parts, int wide, int high)
    {
        public IReadOnlyList<Part> Parts => parts;

        public Part[][] ByHigh { get; } = By(parts, high);

        public Part[][] ByWide { get; } = By(parts.Select(p => p.Turned), wide);

        private static Part[][] By(IEnumerable<Part> parts, int most)
        {
            var by = parts.ToLookup(p => p.Across);
            return [.. Enumerable.Range(0, most + 1).Select(size => by[size].OrderBy(p => p.Waste).ToArray())];
        }
    }
}

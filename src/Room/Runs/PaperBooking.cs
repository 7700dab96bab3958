using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Runs;

/// <summary>What came of one print where it lay.</summary>
/// <param name="Sheet">Its sheet, from 1; 1 on a roll.</param>
/// <param name="From">Where it begins along the feed, in µm.</param>
/// <param name="To">Where it ends along the feed, in µm.</param>
/// <param name="Wasted">Why it is lost; none for a good print.</param>
public readonly record struct PrintedPiece(int Sheet, long From, long To, WasteCause? Wasted);

/// <summary>How the paper of a run is booked: a sheet is wasted only if no good print came from it.</summary>
/// <param name="Good">Sheets, or mm of roll.</param>
/// <param name="Wasted">Sheets or mm by cause, without those that are nothing.</param>
public sealed record PaperBooking(long Good, IReadOnlyList<(WasteCause Cause, long Quantity)> Wasted)
{
    private const long PerMm = 1_000;

    /// <param name="isRoll">Booked by mm; otherwise by sheets.</param>
    /// <param name="used">Sheets, or mm of roll, that were printed.</param>
    /// <param name="pieces">Every print on them.</param>
    public static PaperBooking Of(bool isRoll, long used, IReadOnlyCollection<PrintedPiece> pieces)
    {
        var lost = isRoll ? RollLost(used, pieces) : SheetsLost(pieces);
        return new(used - lost.Values.Sum(), [.. lost.Where(l => l.Value > 0).OrderBy(l => l.Key).Select(l => (l.Key, l.Value))]);
    }

    // A lost sheet has the cause of most of its prints; of equals the one that stands first in the list of causes.
    private static Dictionary<WasteCause, long> SheetsLost(IReadOnlyCollection<PrintedPiece> pieces) => pieces
        .GroupBy(p => p.Sheet)
        .Where(sheet => sheet.All(p => p.Wasted is not null))
        .Select(sheet => Main([.. sheet]))
        .GroupBy(cause => cause)
        .ToDictionary(g => g.Key, g => (long)g.Count());

    // Of a roll the stretches are lost on which a lost print lies and no good one; of a roll without a good print all of it.
    private static Dictionary<WasteCause, long> RollLost(long used, IReadOnlyCollection<PrintedPiece> pieces)
    {
        if (pieces.Count == 0 || pieces.All(p => p.Wasted is not null))
        {
            return pieces.Count == 0 ? [] : new() { [Main(pieces)] = used };
        }

        var marks = pieces.SelectMany(p => (long[])[p.From, p.To]).Distinct().Order().ToArray();
        var lost = new Dictionary<WasteCause, long>();
        for (var i = 1; i < marks.Length; i++)
        {
            var here = pieces.Where(p => p.From < marks[i] && p.To > marks[i - 1]).ToArray();
            if (here.Length > 0 && here.All(p => p.Wasted is not null))
            {
                var cause = Main(here);
                lost[cause] = lost.GetValueOrDefault(cause) + (marks[i] - marks[i - 1]);
            }
        }

        return lost.ToDictionary(l => l.Key, l => l.Value / PerMm);
    }

    private static WasteCause Main(IReadOnlyCollection<PrintedPiece> pieces) =>
        pieces.GroupBy(p => p.Wasted!.Value).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).First().Key;
}

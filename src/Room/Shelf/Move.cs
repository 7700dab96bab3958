using Goodsheet.Room.People;

namespace Goodsheet.Room.Shelf;

/// <summary>Paper of one lot that went from one account to another. Written once; a mistake is moved back.</summary>
/// <remarks>
/// A move has both its ends, so the accounts of a lot always sum to zero. <see cref="Number"/> counts the moves of
/// the lot from 1 without a gap: whoever writes number n has seen n − 1, and of two who try, the ledger takes one.
/// </remarks>
/// <param name="Lot">The lot it is of.</param>
/// <param name="Number">Its place in the lot's line of moves, from 1.</param>
/// <param name="Command">The wish it fulfils.</param>
/// <param name="Line">Which of the wish's moves it is, from 1.</param>
/// <param name="From">Where it came from.</param>
/// <param name="To">Where it went.</param>
/// <param name="Quantity">Sheets, or millimetres of roll; above 0.</param>
/// <param name="Reason">In the person's words, or the rule's.</param>
/// <param name="Reference">What it belongs to: "run 412", "order 31", "delivery D-7".</param>
/// <param name="At">When.</param>
/// <param name="By">Who.</param>
public sealed record Move(
    LotCode Lot, int Number, CommandId Command, int Line, Account From, Account To, long Quantity,
    string? Reason, string? Reference, DateTimeOffset At, PersonName By);

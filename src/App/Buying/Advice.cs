using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;

namespace Goodsheet.App.Buying;

/// <summary>What should be ordered now, by supplier: the same reading for Today, the buying pages and a proposal.</summary>
internal static class Advice
{
    /// <summary>The part of what is wanted that the shelf is to give at once, where the room says nothing else.</summary>
    public const double FillRate = 0.98;

    public static async Task<Read> AdviceAsync(this RoomDb db, TimeProvider clock, CancellationToken cancel)
    {
        var (now, today) = (clock.GetUtcNow(), clock.Today());
        var sendings = await db.ClocksAsync(today, cancel);
        var needs = await db.NeedsAsync(clock, cancel);
        var pieces = await db.PiecesAsync(sendings, clock, cancel);
        return new(now, today, sendings, needs, pieces, [.. needs.Where(n => n.Item.Supplier is { } s && sendings[s].Ways.Count > 0)
            .Select(n => new Line(n, sendings[n.Item.Supplier!.Value], Reorder.Of(n.Of, sendings[n.Item.Supplier.Value].Promise(now), today, FillRate, sendings[n.Item.Supplier.Value].Late)))]);
    }

    /// <param name="Lines">For items with a supplier; the others are in the needs alone.</param>
    public sealed record Read(
        DateTimeOffset Now, DateOnly Today, IReadOnlyDictionary<SupplierCode, Sending> Sendings, IReadOnlyList<Need> Needs,
        IReadOnlyList<PiecesNeed> Pieces, IReadOnlyList<Line> Lines);

    public sealed record Line(Need Need, Sending Sending, Reorder Reorder);
}

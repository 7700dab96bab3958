using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Buying;

/// <summary>How one item goes, by which method that was reckoned, what each method would have said, and what it comes to at the next order.</summary>
public sealed class ShowItemBuying(RoomStore room, TimeProvider clock)
{
    /// <returns>Nothing when the room does not keep the item.</returns>
    public async Task<Page?> RunAsync(ItemCode item, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var advice = await db.AdviceAsync(clock, cancel);
        if (advice.Needs.FirstOrDefault(n => n.Item.Code == item) is not { } need)
        {
            return null;
        }

        var line = advice.Lines.FirstOrDefault(l => l.Need == need);
        return new(
            item, need.Paper, need.Format.IsRoll, need.Of.Pack, need.Goes, BackTest.Of(ItemDemand.Weeks(need.Days)), ItemDemand.Weeks(need.Days),
            line?.Sending, line?.Reorder, need.Of.OnShelf, need.Of.OnTheWay, need.Of.Promised, Advice.FillRate);
    }

    /// <param name="Weeks">Sheets or mm in each whole week, the oldest first.</param>
    /// <param name="Sending">From whom it is bought; none when from nobody.</param>
    public sealed record Page(
        ItemCode Item, string Paper, bool IsRoll, long Pack, ItemDemand Goes, IReadOnlyList<BackTest> Tests, IReadOnlyList<double> Weeks,
        Sending? Sending, Reorder? Reorder, long OnShelf, long OnTheWay, long Promised, double FillRate);
}

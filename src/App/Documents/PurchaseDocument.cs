using Goodsheet.App.Buying;
using Goodsheet.Room;

namespace Goodsheet.App.Documents;

/// <summary>Makes an order to a supplier as a document to send or print.</summary>
public sealed class PurchaseDocument(ShowPurchase show, TimeProvider clock)
{
    public async Task<Outcome<Document>> RunAsync(Request request, CancellationToken cancel = default) =>
        await show.RunAsync(request.Order, cancel) is not { } page ? new NoSuchPurchase(request.Order)
            : PurchasePages.Draw(page, page.Order.SentAt is { } sent ? DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(sent, clock.LocalTimeZone).DateTime) : clock.Today());

    public sealed record Request(int Order);
}

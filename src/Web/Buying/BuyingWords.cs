using System.Globalization;
using Goodsheet.Room.Buying;
using Goodsheet.Web.Look;

namespace Goodsheet.Web.Buying;

/// <summary>How the buying pages say times, packs and states.</summary>
public static class BuyingWords
{
    public static string Day(DateOnly day) => day.ToString("dddd d MMMM", CultureInfo.CurrentCulture);

    /// <summary>In the room's own time: "14:30 on Thursday 5 March".</summary>
    public static string CutOff(Promise promise, TimeZoneInfo zone)
    {
        var local = TimeZoneInfo.ConvertTime(promise.CutOff, zone);
        return string.Create(CultureInfo.CurrentCulture, $"{local:HH:mm} on {local:dddd d MMMM}");
    }

    public static string Waiting(Promise promise, DateTimeOffset now, TimeZoneInfo zone)
    {
        var left = promise.CutOff - now;
        var time = left.TotalHours < 48 ? string.Create(CultureInfo.CurrentCulture, $", in {(int)left.TotalHours} h {left.Minutes} min") : "";
        return $"Send it before {CutOff(promise, zone)}{time}, and it comes on {Day(promise.ComesOn)}. After that it comes on {Day(promise.ThenComesOn)}.";
    }

    public static string Pack(long pack, bool isRoll) => isRoll
        ? string.Create(CultureInfo.CurrentCulture, $"rolls of {pack / 1000.0:0.##} m") : string.Create(CultureInfo.CurrentCulture, $"packs of {pack}");

    public static string Items(int count) => count == 1 ? "Order one item" : $"Order {count} items";

    public static MarkState MarkOf(PurchaseOrder order, DateOnly today) => order.State switch
    {
        PurchaseState.Proposed => MarkState.Act,
        PurchaseState.Closed => MarkState.Good,
        PurchaseState.Cancelled => MarkState.Gone,
        PurchaseState.PartDelivered => MarkState.Due,
        _ => order.PromisedOn < today ? MarkState.Act : MarkState.Wait,
    };

    public static string StateOf(PurchaseOrder order, DateOnly today) => order.State switch
    {
        PurchaseState.Proposed => "not sent",
        PurchaseState.Closed => "closed",
        PurchaseState.Cancelled => "cancelled",
        PurchaseState.PartDelivered => "part delivered",
        _ => order.PromisedOn < today ? "late" : "on the way",
    };

    public static MarkState MarkOf(Standing standing) => standing switch
    {
        Standing.Rely => MarkState.Good,
        Standing.Watch => MarkState.Due,
        Standing.Talk => MarkState.Act,
        Standing.Leave => MarkState.Gone,
        _ => MarkState.Wait,
    };

    public static string Of(Standing standing) => standing switch
    {
        Standing.Rely => "rely on it",
        Standing.Watch => "watch it",
        Standing.Talk => "talk to it",
        Standing.Leave => "leave it",
        _ => "too new to say",
    };

    public static string Of(DemandMethod method) => method switch
    {
        DemandMethod.EightWeeks => "average of the last eight weeks",
        DemandMethod.Smoothed => "smoothed, each week drawing it a fifth of the way",
        DemandMethod.Trend => "level and trend (Holt)",
        DemandMethod.SyntetosBoylan => "size and interval apart (Syntetos, Boylan)",
        DemandMethod.TeunterSyntetosBabai => "size and chance apart (Teunter, Syntetos, Babai)",
        _ => "average of the half year",
    };
}

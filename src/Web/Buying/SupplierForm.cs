using System.Globalization;
using Goodsheet.App.Buying;
using Goodsheet.Room.Buying;

namespace Goodsheet.Web.Buying;

/// <summary>What a person types about a supplier. A second way of sending is taken when it has a name.</summary>
public sealed class SupplierForm
{
    public string Name { get; set => field = value ?? ""; } = "";

    public string TimeZone { get; set => field = value ?? ""; } = "Europe/London";

    public string Holidays { get; set => field = value ?? ""; } = "GB";

    public List<int> Works { get; set; } = [];

    public List<int> Delivers { get; set; } = [];

    public string WayName { get; set => field = value ?? ""; } = "next day";

    public TimeOnly CutOff { get; set; } = new(14, 0);

    public int LeadDays { get; set; } = 1;

    public string OtherName { get; set => field = value ?? ""; } = "";

    public TimeOnly OtherCutOff { get; set; } = new(12, 0);

    public int OtherLeadDays { get; set; } = 3;

    public decimal MinimumOrder { get; set; }

    public decimal? CarriageFreeFrom { get; set; }

    public decimal Carriage { get; set; }

    public string Email { get; set => field = value ?? ""; } = "";

    public string Note { get; set => field = value ?? ""; } = "";

    public static SupplierForm New() => new() { Works = [0, 1, 2, 3, 4], Delivers = [0, 1, 2, 3, 4] };

    public static SupplierForm Of(Sending sending)
    {
        var s = sending.Supplier;
        var form = new SupplierForm
        {
            Name = s.Name,
            TimeZone = s.TimeZone,
            Holidays = s.Holidays ?? "",
            Works = Days(s.WorkingDays),
            Delivers = Days(s.DeliveryDays),
            MinimumOrder = s.MinimumOrder,
            CarriageFreeFrom = s.CarriageFreeFrom,
            Carriage = s.Carriage,
            Email = s.Email,
            Note = s.Note,
            WayName = sending.Ways.Count > 0 ? sending.Usual.Name : "",
        };
        if (sending.Ways.Count > 0)
        {
            (form.CutOff, form.LeadDays) = (sending.Usual.CutOff, sending.Usual.LeadDays);
        }

        if (sending.Ways.Count > 1)
        {
            (form.OtherName, form.OtherCutOff, form.OtherLeadDays) = (sending.Ways[1].Name, sending.Ways[1].CutOff, sending.Ways[1].LeadDays);
        }

        return form;
    }

    public SupplierTerms Terms()
    {
        var ways = new List<SupplierTerms.Way> { new(WayName, CutOff, LeadDays) };
        if (OtherName.Trim().Length > 0)
        {
            ways.Add(new(OtherName, OtherCutOff, OtherLeadDays));
        }

        return new(Name, TimeZone, Week(Works), Week(Delivers), Holidays.Length > 0 ? Holidays : null, MinimumOrder, CarriageFreeFrom, Carriage, Email, Note, ways);
    }

    /// <summary>Monday is 0, as people count.</summary>
    public static string DayName(int day) => CultureInfo.CurrentCulture.DateTimeFormat.AbbreviatedDayNames[(day + 1) % 7];

    private static List<int> Days(WorkingWeek week) => [.. Enumerable.Range(0, 7).Where(d => week.Includes((DayOfWeek)((d + 1) % 7)))];

    private static WorkingWeek Week(List<int> days) => WorkingWeek.Of(days.Where(d => d is >= 0 and <= 6).Select(d => (DayOfWeek)((d + 1) % 7)));
}

namespace Goodsheet.Room.Buying;

/// <summary>The room's short name of a supplier.</summary>
public readonly record struct SupplierCode(string Value)
{
    public override string ToString() => Value;
}

/// <summary>Who paper is bought from, and by which clock.</summary>
public sealed class Supplier
{
    public required SupplierCode Code { get; init; }

    public required string Name { get; set; }

    /// <summary>IANA name of the supplier's own time zone.</summary>
    public required string TimeZone { get; set; }

    /// <summary>The days it takes and packs orders.</summary>
    public WorkingWeek WorkingDays { get; set; } = WorkingWeek.MondayToFriday;

    /// <summary>The days its carrier comes to the room.</summary>
    public WorkingWeek DeliveryDays { get; set; } = WorkingWeek.MondayToFriday;

    /// <summary>The country whose public holidays it keeps, as ISO 3166 ("GB", "GB-SCT", "DE"); none for no holidays.</summary>
    public string? Holidays { get; set; }

    /// <summary>The least order, in the room's currency; 0 for none.</summary>
    public decimal MinimumOrder { get; set; }

    /// <summary>From this sum on carriage is free; none if it never is.</summary>
    public decimal? CarriageFreeFrom { get; set; }

    public decimal Carriage { get; set; }

    public string Email { get; set; } = "";

    public string Note { get; set; } = "";
}

/// <summary>One of the ways a supplier sends: "next day" until 14:30, "economy" until noon.</summary>
public sealed class Dispatch
{
    public required SupplierCode Supplier { get; init; }

    public required string Name { get; init; }

    /// <summary>An order sent before this time, on the supplier's clock, counts for that day; at this minute it is late.</summary>
    public required TimeOnly CutOff { get; init; }

    /// <summary>Promised working days from the order's day to delivery; 0 is the same day.</summary>
    public required int LeadDays { get; init; }
}

/// <summary>A day on which a supplier neither packs nor delivers, beside public holidays.</summary>
public sealed class SupplierClosure
{
    public required SupplierCode Supplier { get; init; }

    public required DateOnly Day { get; init; }

    public string Why { get; init; } = "";
}

/// <summary>What a pack of an item costs at a supplier, from a day on.</summary>
public sealed class PriceLine
{
    public required SupplierCode Supplier { get; init; }

    public required Papers.PaperCode Paper { get; init; }

    public required Papers.FormatCode Format { get; init; }

    public required DateOnly From { get; init; }

    /// <summary>From this many packs on.</summary>
    public int FromPacks { get; init; } = 1;

    /// <summary>Sheets in a pack, or mm of a roll.</summary>
    public required long PackSize { get; set; }

    /// <summary>Of one pack, in the room's currency, before tax.</summary>
    public required decimal Price { get; set; }
}

using Goodsheet.Room.Units;

namespace Goodsheet.Room.Papers;

/// <summary>A size that paper comes in: a sheet, or a roll.</summary>
public sealed class Format
{
    public required FormatCode Code { get; init; }

    public required bool IsRoll { get; init; }

    /// <summary>Of a sheet its short edge; of a roll its width.</summary>
    public required Length Width { get; init; }

    /// <summary>Of a sheet its long edge; of a roll its full length.</summary>
    public required Length Height { get; init; }

    /// <summary>Where it stands in a list of formats.</summary>
    public int Order { get; init; }

    /// <summary>What a quantity of it counts: sheets, or millimetres of roll.</summary>
    public string Unit => IsRoll ? "mm" : "sheets";

    /// <summary>Square metres of one of what a quantity of it counts: of a sheet, or of a millimetre of roll.</summary>
    public decimal AreaOfOne => (decimal)Width.Micrometres * (IsRoll ? 1000 : Height.Micrometres) / 1e12m;
}

/// <summary>A paper in a format as the room keeps it.</summary>
public sealed class Item
{
    public required PaperCode Paper { get; init; }

    public required FormatCode Format { get; init; }

    /// <summary>Sheets in a box; one roll counts its full length in mm.</summary>
    public required long PackSize { get; set; }

    /// <summary>Kept for work promised today, in sheets or mm.</summary>
    public long Reserve { get; set; }

    /// <summary>Where it lies: "cabinet 2, drawer 3".</summary>
    public string Place { get; set; } = "";

    public Buying.SupplierCode? Supplier { get; set; }

    public ItemCode Code => new(Paper, Format);
}

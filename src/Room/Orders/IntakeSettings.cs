using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Orders;

/// <summary>Where pictures come from that nobody carries to a page; one row.</summary>
public sealed class IntakeSettings
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    /// <summary>The folder that the pictures of an order list lie in; empty until it is named.</summary>
    public string PictureFolder { get; set; } = "";

    /// <summary>The folder that is watched; empty while none is.</summary>
    public string WatchedFolder { get; set; } = "";

    /// <summary>A file that has not changed for so long is whole.</summary>
    public int QuietSeconds { get; set; } = 10;

    /// <summary>Whose pictures the watched folder brings.</summary>
    public string Client { get; set; } = "";

    public PaperCode? Paper { get; set; }

    /// <summary>The longer side of the picture on paper.</summary>
    public Length LongSide { get; set; } = Length.FromMillimetres(300);

    public Length Border { get; set; } = Length.FromMillimetres(10);

    /// <summary>From the day it came.</summary>
    public int PromisedDays { get; set; } = 5;
}

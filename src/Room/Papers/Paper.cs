using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Room.Papers;

/// <summary>A paper the room prints on, or is trying.</summary>
public sealed class Paper
{
    public required PaperCode Code { get; init; }

    public required string Name { get; set; }

    public required PaperClass Class { get; set; }

    public required PaperBase Base { get; set; }

    public required Coat Coat { get; set; }

    /// <summary>1 or 2.</summary>
    public int CoatedSides { get; set; } = 1;

    /// <summary>In g/m2.</summary>
    public required int Grammage { get; set; }

    /// <summary>In micrometres; none if the maker does not say and nobody measured.</summary>
    public int? Caliper { get; set; }

    /// <summary>By the maker's word.</summary>
    public Brightener? BrightenerDeclared { get; set; }

    public Brightener? BrightenerMeasured { get; set; }

    /// <summary>The bare paper as measured, D50 2 degrees, and in which M-condition.</summary>
    public double? WhiteL { get; set; }

    public double? WhiteA { get; set; }

    public double? WhiteB { get; set; }

    public string? WhiteCondition { get; set; }

    /// <summary>-log10 Y of the darkest patch.</summary>
    public double? DMax { get; set; }

    /// <summary>In cubic dE*ab.</summary>
    public double? GamutVolume { get; set; }

    public required Feed Feed { get; set; }

    /// <summary>How it goes in: what is said of a paper is said of its sheets, and from a roll all go alike.</summary>
    public Feed FeedFrom(bool roll) => roll ? Feed.Roll : Feed;

    /// <summary>Hours before prints may be stacked or framed.</summary>
    public double DryingHours { get; set; } = 1;

    /// <summary>Its grain or weave has a direction that matters: no print is laid turned on it.</summary>
    public bool OneWay { get; set; }

    public LineUp LineUp { get; set; } = LineUp.OnTrial;

    public string Note { get; set; } = "";

    public Lab? White => WhiteL is { } l && WhiteA is { } a && WhiteB is { } b ? new(l, a, b) : null;

    /// <summary>The black this paper wants from an ink set: a dye set has but one.</summary>
    public BlackInk BlackFor(Printers.InkKind inks) => inks is Printers.InkKind.Dye ? BlackInk.Dye
        : TradeRules.BlackFor(Coat);
}

using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Orders;

public enum OrderState
{
    Quoted = 1,
    Approved = 2,
    OnHold = 3,
    Done = 4,
    Cancelled = 5,
}

public sealed class Client
{
    public required int Number { get; init; }

    public required string Name { get; set; }

    public string Contact { get; set; } = "";
}

/// <summary>Prints promised to a client by an instant.</summary>
public sealed class Order
{
    public required int Number { get; init; }

    public required int Client { get; init; }

    public required DateTimeOffset TakenAt { get; init; }

    public required PersonName TakenBy { get; init; }

    public required DateTimeOffset Promised { get; set; }

    public OrderState State { get; set; } = OrderState.Quoted;

    /// <summary>Why it is in that state, in a few words for the list: "the larger file is awaited".</summary>
    public string StateWhy { get; set; } = "";

    /// <summary>What the client is to approve before a print of it is begun.</summary>
    public ApprovalOf Asks { get; set; }

    /// <summary>When what was asked was approved; none while it is not, or not any more.</summary>
    public DateTimeOffset? ApprovedAt { get; set; }

    /// <summary>Paid before the work, in the room's currency, together.</summary>
    public decimal Deposit { get; set; }

    /// <summary>The client's own word for it: an order number of theirs.</summary>
    public string Reference { get; set; } = "";

    public HandOut Out { get; set; } = HandOut.Collected;

    public PackedAs Packed { get; set; } = PackedAs.Flat;

    /// <summary>When the client had it; none while it is in the room.</summary>
    public DateTimeOffset? OutAt { get; set; }

    /// <summary>The order whose prints it makes again, after a complaint.</summary>
    public int? RemakeOf { get; set; }

    public string Note { get; set; } = "";
}

/// <summary>How the colours are brought onto paper; the standard's rendering intents.</summary>
public enum Intent
{
    Perceptual = 0,
    Relative = 1,
    Saturation = 2,
    Absolute = 3,
}

/// <summary>One image at one size on one paper, in a number of copies.</summary>
public sealed class PrintLine
{
    public required int Order { get; init; }

    public required int Line { get; init; }

    /// <summary>The title of the picture, or its file's name.</summary>
    public required string Title { get; set; }

    /// <summary>SHA-256 of the file as it came.</summary>
    public required string ImageHash { get; set; }

    public required string ImageName { get; set; }

    public required int PixelsWide { get; set; }

    public required int PixelsHigh { get; set; }

    /// <summary>Of the picture, without border.</summary>
    public required Length Width { get; set; }

    public required Length Height { get; set; }

    /// <summary>White paper around the picture and what is mirrored around it.</summary>
    public Length Border { get; set; }

    public EdgeKind Edge { get; set; } = EdgeKind.White;

    /// <summary>How far the edge reaches outwards: cut away for a bleed, around a stretcher for a wrap.</summary>
    public Length Around { get; set; }

    /// <summary>The wish by which it came: the same again brings no second one.</summary>
    public CommandId? Command { get; init; }

    public required PaperCode Paper { get; set; }

    public required int Copies { get; set; }

    public Intent Intent { get; set; } = Intent.Relative;

    public bool BlackPointCompensation { get; set; } = true;

    /// <summary>How far away it will be looked at; it decides how many pixels are enough.</summary>
    public Length ViewingDistance { get; set; } = Length.FromMillimetres(500);

    /// <summary>False where the picture has to lie along the feed as it is: it is never laid turned.</summary>
    public bool MayTurn { get; set; } = true;

    /// <summary>It has time: it goes along with any run of its paper that has room to spare, whatever day is promised.</summary>
    public bool GoesAlong { get; set; }

    /// <summary>A test strip of it is printed and looked at before the whole is begun.</summary>
    public bool StripFirst { get; set; }

    public int Good { get; set; }

    public int Wasted { get; set; }

    /// <summary>SHA-256 of the print-ready file; none until it is prepared.</summary>
    public string? PreparedHash { get; set; }

    /// <summary>What it was prepared with, as text: the same recipe gives the same file again. While a remake is not prepared yet, what the first was prepared with.</summary>
    public string? Recipe { get; set; }

    /// <summary>The long work that is preparing it.</summary>
    public Guid? Work { get; set; }

    /// <summary>On paper, with all that lies around the picture.</summary>
    public Length FullWidth => Width + Border + Border + Around + Around;

    public Length FullHeight => Height + Border + Border + Around + Around;

    /// <summary>The paper as it leaves the knife: a bleed is cut away.</summary>
    public Length FinishedWidth => Edge is EdgeKind.Bleed ? FullWidth - Around - Around : FullWidth;

    public Length FinishedHeight => Edge is EdgeKind.Bleed ? FullHeight - Around - Around : FullHeight;

    /// <summary>The share of the picture's width that is cut off on each side, since the print is narrower in shape.</summary>
    public double CutAtSides => Shape.CutAtSides(Width, Height);

    /// <summary>The share of the picture's height that is cut off above and below each, since the print is wider in shape.</summary>
    public double CutAboveAndBelow => Shape.CutAboveAndBelow(Width, Height);

    private PictureShape Shape => new(PixelsWide, PixelsHigh);

    public int ToPrint => Math.Max(0, Copies - Good);
}

/// <summary>How bad a finding is.</summary>
public enum Severity
{
    ToKnow = 1,
    Warning = 2,
    Stops = 3,
}

/// <summary>Something that will go wrong with a print unless somebody acts.</summary>
public sealed class Finding
{
    public required int Order { get; init; }

    public required int Line { get; init; }

    public required int Number { get; init; }

    /// <summary>A short stable word: "too few pixels", "no profile in the file".</summary>
    public required string Kind { get; init; }

    public required Severity Severity { get; init; }

    public required string Text { get; init; }

    /// <summary>What would help.</summary>
    public string Help { get; init; } = "";
}

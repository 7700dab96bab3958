using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Orders;

/// <summary>Why a place of a picture is worth printing before the whole of it.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum PlaceKind
{
    /// <summary>The keeper chose it.</summary>
    Chosen = 0,

    /// <summary>Most of what is worth looking at together.</summary>
    Most = 1,

    /// <summary>Colours that the paper does not hold.</summary>
    NotHeld = 2,

    /// <summary>Drawing in the shadows.</summary>
    Shadows = 3,

    /// <summary>Skin.</summary>
    Skin = 4,

    /// <summary>Fine detail.</summary>
    Detail = 5,
}

/// <summary>What the keeper says of a test strip.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum StripSays
{
    /// <summary>Not looked at yet.</summary>
    Nothing = 0,
    GoOn = 1,
    Change = 2,
}

/// <summary>What a print that wants a test strip first still waits for.</summary>
public enum StripWait
{
    /// <summary>For nothing: none is wanted, or it was looked at and says go on.</summary>
    Nothing = 0,

    /// <summary>Of the print as it is now no strip is made, or the last says change.</summary>
    ToMake = 1,
    ToPrint = 2,
    ToJudge = 3,
}

/// <summary>A print of a run that waits for its test strip.</summary>
/// <param name="Order">Its order.</param>
/// <param name="Line">Which print of it.</param>
/// <param name="Title">Of the picture.</param>
/// <param name="Wait">For what.</param>
public sealed record AwaitedStrip(int Order, int Line, string Title, StripWait Wait)
{
    /// <summary>What is to be done with it still, in words; empty if nothing.</summary>
    public string Says => Wait switch
    {
        StripWait.ToMake => "to be made, printed and looked at",
        StripWait.ToPrint => "made, to be printed and looked at",
        StripWait.ToJudge => "printed, to be looked at",
        _ => "",
    };

    /// <param name="print">The print.</param>
    /// <param name="last">Its last test strip; none while none is made.</param>
    public static AwaitedStrip Of(PrintLine print, TestStrip? last)
    {
        ArgumentNullException.ThrowIfNull(print);
        return new(print.Order, print.Line, print.Title, last switch
        {
            _ when !print.StripFirst || print.ToPrint == 0 => StripWait.Nothing,
            null => StripWait.ToMake,
            _ when print.Recipe is not null && print.Recipe != last.Recipe => StripWait.ToMake,
            { Says: StripSays.GoOn } => StripWait.Nothing,
            { Says: StripSays.Change } => StripWait.ToMake,
            { PrintedAt: null } => StripWait.ToPrint,
            _ => StripWait.ToJudge,
        });
    }
}

/// <summary>A piece of a print in full size, printed before the whole of it to be judged on the paper itself.</summary>
public sealed class TestStrip
{
    /// <summary>How large a strip is while nobody says otherwise.</summary>
    public static Length UsualWidth { get; } = Length.FromMillimetres(100);

    public static Length UsualHeight { get; } = Length.FromMillimetres(70);

    public required int Order { get; init; }

    public required int Line { get; init; }

    /// <summary>From 1 for each print.</summary>
    public required int Number { get; init; }

    /// <summary>Where it lies on the print, from the picture's upper left corner.</summary>
    public required Length X { get; init; }

    public required Length Y { get; init; }

    public required Length Width { get; init; }

    public required Length Height { get; init; }

    public required PlaceKind Place { get; init; }

    /// <summary>The profile it was made with.</summary>
    public required int Profile { get; init; }

    /// <summary>All else it was made with, as text: the same as for the whole print.</summary>
    public required string Recipe { get; init; }

    /// <summary>SHA-256 of its file.</summary>
    public required string FileHash { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    /// <summary>The lot it was printed on; none while it is not printed.</summary>
    public LotCode? Lot { get; set; }

    public DateTimeOffset? PrintedAt { get; set; }

    public StripSays Says { get; set; }

    public string Why { get; set; } = "";

    public DateTimeOffset? SaidAt { get; set; }

    public PersonName SaidBy { get; set; } = PersonName.TheRoom;
}

/// <summary>A print that is larger than its paper, as files of tiles that are trimmed and joined.</summary>
public sealed class TileSet
{
    public required int Order { get; init; }

    public required int Line { get; init; }

    /// <summary>From 1 for each print.</summary>
    public required int Number { get; init; }

    /// <summary>Of the paper, across the feed.</summary>
    public required Length PaperWidth { get; init; }

    /// <summary>Of a sheet along the feed; none for a roll.</summary>
    public Length? PaperLength { get; init; }

    public required Length Overlap { get; init; }

    public required int Profile { get; init; }

    public required string Recipe { get; init; }

    /// <summary>SHA-256 of the file of each tile, in order.</summary>
    public required IReadOnlyList<string> Files { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }
}

/// <summary>One picture many times small on a sheet, each with a label: to choose a paper, an intent or how light it is.</summary>
public sealed class ProofSheet
{
    public required int Order { get; init; }

    public required int Line { get; init; }

    /// <summary>From 1 for each print.</summary>
    public required int Number { get; init; }

    /// <summary>What is beside one another, in words.</summary>
    public required string What { get; init; }

    /// <summary>The profile of the paper it is printed on.</summary>
    public required int Profile { get; init; }

    public required string FileHash { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }
}

using Goodsheet.Room.Papers;
using Goodsheet.Room.People;

namespace Goodsheet.Room.Orders;

/// <summary>What lies around the picture on paper.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum EdgeKind
{
    /// <summary>White paper.</summary>
    White = 1,

    /// <summary>A little of the picture mirrored outwards, cut away: no white shows where the knife strays.</summary>
    Bleed = 2,

    /// <summary>The picture mirrored outwards, for the sides of a stretcher.</summary>
    Wrap = 3,

    /// <summary>The picture's outermost part drawn out over the sides of a stretcher.</summary>
    StretchedWrap = 4,

    /// <summary>Bare canvas for the sides of a stretcher.</summary>
    PlainWrap = 5,
}

/// <summary>The words of an edge in lists and for programs.</summary>
public static class Edges
{
    public const string Words = "white, bleed, wrap, stretched wrap or plain wrap";

    public static EdgeKind? Read(string? word) => word?.Trim().ToLowerInvariant() switch
    {
        null or "" or "white" => EdgeKind.White,
        "bleed" => EdgeKind.Bleed,
        "wrap" => EdgeKind.Wrap,
        "stretched wrap" => EdgeKind.StretchedWrap,
        "plain wrap" => EdgeKind.PlainWrap,
        _ => null,
    };

    public static string Word(EdgeKind edge) => edge switch
    {
        EdgeKind.White => "white edge",
        EdgeKind.Bleed => "bleed",
        EdgeKind.Wrap => "wrap",
        EdgeKind.StretchedWrap => "stretched wrap",
        _ => "plain wrap",
    };

    /// <summary>Whether it goes around a stretcher.</summary>
    public static bool IsWrap(EdgeKind edge) => edge is EdgeKind.Wrap or EdgeKind.StretchedWrap or EdgeKind.PlainWrap;
}

/// <summary>How the client gets it.</summary>
public enum HandOut
{
    Collected = 1,
    Sent = 2,
}

/// <summary>How it is packed.</summary>
public enum PackedAs
{
    Flat = 1,
    Tube = 2,
}

/// <summary>A step between the printer and the client.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum FinishKind
{
    DryDown = 1,
    Coat = 2,
    Interleave = 3,
    Trim = 4,
    Pack = 5,
}

/// <summary>One step of an order's finishing, done or to do.</summary>
public sealed class FinishStep
{
    public required int Order { get; init; }

    public required int Number { get; init; }

    public required FinishKind Kind { get; init; }

    public string Text { get; init; } = "";

    public DateTimeOffset? DoneAt { get; set; }

    public PersonName? DoneBy { get; set; }
}

/// <summary>Which steps an order takes, and in which order.</summary>
public static class FinishingRules
{
    /// <param name="papers">Those the order is printed on.</param>
    /// <param name="coat">Whether the prints are coated or varnished.</param>
    /// <param name="packed">How they leave.</param>
    public static IReadOnlyList<(FinishKind Kind, string Text)> Steps(IReadOnlyList<Paper> papers, bool coat, PackedAs packed)
    {
        var hours = papers.Max(p => p.DryingHours);
        var steps = new List<(FinishKind, string)>();
        if (hours > 0)
        {
            steps.Add((FinishKind.DryDown, $"Let dry {hours:0.#} {(hours == 1 ? "hour" : "hours")}, open and face up, before anything lies on it."));
        }

        if (coat)
        {
            steps.Add((FinishKind.Coat, "Coat or varnish, and let it dry as its maker says."));
        }

        steps.Add((FinishKind.Trim, "Trim, and look at each print under the viewing lamp."));
        steps.Add((FinishKind.Interleave, "Interleave with acid-free tissue, face to tissue."));
        steps.Add((FinishKind.Pack, packed is PackedAs.Tube
            ? "Roll loosely, picture outwards, into a wide tube."
            : "Flat between boards larger than the print on every side."));
        return steps;
    }

    /// <summary>What a step can hurt with; none when it cannot.</summary>
    public static string? Caution(FinishKind kind) => kind switch
    {
        FinishKind.Coat => "Sprays and varnishes are flammable and bad to breathe: ventilate, no flame, and follow the maker’s safety data sheet and local rules.",
        FinishKind.Trim => "Blades cut hands: guard in place, and cut away from yourself.",
        _ => null,
    };
}

/// <summary>Who bears the cost.</summary>
public enum WhoPays
{
    Room = 1,
    Client = 2,
    Supplier = 3,
}

/// <summary>What was wrong with what a client got.</summary>
public sealed class Complaint
{
    public required int Number { get; init; }

    public required int Order { get; init; }

    public required int Line { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    public required string What { get; init; }

    public required WhoPays Pays { get; init; }

    /// <summary>The prints came back.</summary>
    public required bool CameBack { get; init; }

    /// <summary>SHA-256 of the photographs of it.</summary>
    public IReadOnlyList<string> Photographs { get; init; } = [];

    /// <summary>The order that makes it again.</summary>
    public int? Remake { get; set; }

    public DateTimeOffset? SettledAt { get; set; }

    public string SettledHow { get; set; } = "";
}

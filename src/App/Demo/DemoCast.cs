using Goodsheet.Colour.Printer;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Demo;

/// <summary>Who and what is in the demonstration room. Every name and every number is invented.</summary>
internal static class DemoCast
{
    public const string RoomName = "Demonstration room";

    public const string Keeper = "Mira Makebelieve";

    public const string Heron = "Heron";

    public const string Wren = "Wren";

    public static readonly IReadOnlyList<string> People = [Keeper, "Jo Pretend", "Sam Example"];

    public static readonly IReadOnlyList<string> Clients =
    [
        "Gallery Nowhere", "The Made-up Museum", "Example & Daughters", "Studio Pretend", "Club of Imaginary Views",
        "A. Nobody, photographer", "Figment Weddings", "The Unwritten Bookshop",
    ];

    /// <summary>At least one paper of each of the eight classes.</summary>
    public static readonly IReadOnlyList<DemoPaper> Papers =
    [
        new("Nonesuch Gloss 260", PaperClass.Gloss, PaperBase.ResinCoated, Coat.Shiny, 1, 260, 250, Brightener.Moderate, Feed.Stack, 0.5, LineUp.In,
            new() { White = 0.91, Warmth = 0.015, Brightener = 0.12, Surface = 0.003, InkTake = 1.08, Gain = 0.1 }),
        new("Nonesuch Satin 255", PaperClass.Satin, PaperBase.ResinCoated, Coat.Shiny, 1, 255, 245, Brightener.Moderate, Feed.Stack, 0.5, LineUp.In,
            new() { White = 0.9, Warmth = 0.02, Brightener = 0.1, Surface = 0.005, Gain = 0.11 }),
        new("Nonesuch Pearl 285", PaperClass.Pearl, PaperBase.ResinCoated, Coat.Shiny, 1, 285, 290, Brightener.Low, Feed.Stack, 0.5, LineUp.In,
            new() { White = 0.9, Warmth = 0.03, Brightener = 0.06, Surface = 0.005, InkTake = 1.04, Gain = 0.11 }),
        new("Teapot Matte 190", PaperClass.Matte, PaperBase.Cellulose, Coat.Dull, 2, 190, 260, Brightener.High, Feed.TwoOrThree, 1, LineUp.In,
            new() { White = 0.89, Warmth = 0.03, Brightener = 0.16, Surface = 0.023, InkTake = 0.9, Gain = 0.15 }),
        new("Teapot Matte 230", PaperClass.Matte, PaperBase.Cellulose, Coat.Dull, 1, 230, 300, Brightener.Moderate, Feed.TwoOrThree, 1, LineUp.In,
            new() { White = 0.9, Warmth = 0.03, Brightener = 0.1, Surface = 0.021, InkTake = 0.92, Gain = 0.14 }),
        new("Unicorn Smooth 310", PaperClass.SmoothFineArt, PaperBase.Cotton, Coat.Dull, 1, 310, 520, Brightener.None, Feed.OneByOne, 4, LineUp.In,
            new() { White = 0.89, Warmth = 0.07, Surface = 0.019, InkTake = 0.95, Gain = 0.13 }),
        new("Unicorn Smooth 210", PaperClass.SmoothFineArt, PaperBase.Cotton, Coat.Dull, 2, 210, 380, Brightener.None, Feed.OneByOne, 4, LineUp.RunningDown,
            new() { White = 0.89, Warmth = 0.07, Surface = 0.02, InkTake = 0.94, Gain = 0.13 }),
        new("Dragon Textured 300", PaperClass.TexturedFineArt, PaperBase.Cotton, Coat.Dull, 1, 300, 560, Brightener.Faint, Feed.OneByOne, 6, LineUp.In,
            new() { White = 0.88, Warmth = 0.09, Surface = 0.025, InkTake = 0.9, Gain = 0.15 }),
        new("Nobody Baryta 315", PaperClass.Baryta, PaperBase.BarytaFibre, Coat.Shiny, 1, 315, 400, Brightener.Faint, Feed.OneByOne, 3, LineUp.In,
            new() { White = 0.9, Warmth = 0.05, Brightener = 0.02, Surface = 0.004, InkTake = 1.05, Gain = 0.11 }),
        new("Nobody Baryta Cream 290", PaperClass.Baryta, PaperBase.BarytaFibre, Coat.Shiny, 1, 290, 370, Brightener.None, Feed.OneByOne, 3, LineUp.OnTrial,
            new() { White = 0.88, Warmth = 0.14, Surface = 0.004, InkTake = 1.03, Gain = 0.11 }),
        new("Figment Canvas 380", PaperClass.Canvas, PaperBase.PolyCottonCanvas, Coat.Dull, 1, 380, 480, Brightener.Low, Feed.Roll, 24, LineUp.In,
            new() { White = 0.88, Warmth = 0.05, Brightener = 0.06, Surface = 0.026, InkTake = 0.92, Gain = 0.16 }),
        new("Figment Canvas Shine 400", PaperClass.Canvas, PaperBase.CottonCanvas, Coat.Shiny, 1, 400, 450, Brightener.Low, Feed.Roll, 24, LineUp.OnTrial,
            new() { White = 0.88, Warmth = 0.05, Brightener = 0.05, Surface = 0.009, Gain = 0.14 }),
    ];

    /// <summary>What the room keeps: packs, the same-day reserve, how much is enough, and who sells it.</summary>
    public static readonly IReadOnlyList<DemoItem> Items =
    [
        new("Nonesuch Gloss 260", "A4", 50, 20, 60, Sundry, "Cabinet 1, drawer 1", 0),
        new("Nonesuch Satin 255", "A4", 50, 20, 60, Sundry, "Cabinet 1, drawer 2", 0),
        new("Nonesuch Pearl 285", "A3+", 25, 10, 30, Sundry, "Cabinet 1, drawer 3", 5),
        new("Nonesuch Pearl 285", "roll 610", 30_000, 8_000, 12_000, Sundry, "Roll rack, 2", 2),
        new("Teapot Matte 190", "A4", 50, 0, 40, Fable, "Cabinet 1, drawer 4", 0),
        new("Teapot Matte 230", "A4", 50, 15, 40, Fable, "Cabinet 1, drawer 5", 6),
        new("Teapot Matte 230", "A3+", 25, 10, 25, Fable, "Cabinet 1, drawer 6", 5),
        new("Unicorn Smooth 310", "A3+", 25, 10, 30, Fable, "Cabinet 2, drawer 1", 6),
        new("Unicorn Smooth 310", "A2", 25, 10, 30, Fable, "Cabinet 2, drawer 2", 7),
        new("Unicorn Smooth 310", "roll 610", 15_000, 5_000, 12_000, Fable, "Roll rack, 3", 4),
        new("Unicorn Smooth 210", "A3", 25, 0, 0, null, "Cabinet 2, drawer 3", 0),
        new("Dragon Textured 300", "A2", 15, 5, 15, Tortoise, "Cabinet 2, drawer 4", 3),
        new("Nobody Baryta 315", "A3+", 25, 10, 25, Tortoise, "Cabinet 2, drawer 5", 5),
        new("Nobody Baryta 315", "A2", 25, 8, 20, Tortoise, "Cabinet 2, drawer 6", 5),
        new("Nobody Baryta Cream 290", "A4", 10, 0, 0, Tortoise, "Cabinet 3, drawer 1", 0),
        new("Figment Canvas 380", "roll 610", 15_000, 4_000, 6_000, Tortoise, "Roll rack, 4", 0),
        new("Figment Canvas Shine 400", "roll 610", 15_000, 0, 0, Tortoise, "Roll rack, 5", 0),
    ];

    /// <summary>The printing conditions that have a chart, and what came of each.</summary>
    public static readonly IReadOnlyList<DemoCondition> Conditions =
    [
        new("Unicorn Smooth 310", Heron, "Fine art, heavy", 178),
        new("Nobody Baryta 315", Heron, "Baryta, one by one", 176),
        new("Nonesuch Pearl 285", Wren, "Pearl", 175),
        new("Teapot Matte 230", Heron, "Matte, heavy", 172),
        new("Dragon Textured 300", Heron, "Fine art, wide gap", 150),
        new("Nonesuch Gloss 260", Wren, "Gloss", 4),
    ];

    public const string Fable = "Fable Paper Company";

    public const string Sundry = "Sundry & Maybe";

    public const string Tortoise = "Tortoise Carriers of Paper";

    public static PaperCode CodeOf(string paper) => new(paper.ToLowerInvariant().Replace(' ', '-'));

    public static PrinterCode PrinterOf(string printer) => new(printer.ToLowerInvariant());

    public static DemoPaper Paper(PaperCode code) => Papers.Single(p => CodeOf(p.Name) == code);
}

internal sealed record DemoPaper(
    string Name, PaperClass Class, PaperBase Base, Coat Coat, int Sides, int Grammage, int Caliper, Brightener Brightener, Feed Feed,
    double DryingHours, LineUp LineUp, InventedPaper Optics);

/// <param name="Paper">Its name.</param>
/// <param name="Format">Its format.</param>
/// <param name="Pack">Sheets in a box, or mm of a roll.</param>
/// <param name="Reserve">Kept for work promised today.</param>
/// <param name="Enough">Under this much, on the shelf and under way, a pack more is ordered; 0 for never.</param>
/// <param name="Supplier">Who sells it; none for what is not bought any more.</param>
/// <param name="Place">Where it lies.</param>
/// <param name="Share">How often clients want it, of the sum of all; 0 for not at all.</param>
internal sealed record DemoItem(string Paper, string Format, long Pack, long Reserve, long Enough, string? Supplier, string Place, int Share)
{
    public ItemCode Code => new(DemoCast.CodeOf(Paper), new(Format));

    public bool IsRoll => Format.StartsWith("roll", StringComparison.Ordinal);
}

/// <param name="Paper">Its name.</param>
/// <param name="Printer">The printer's name.</param>
/// <param name="MediaSetting">In the driver.</param>
/// <param name="DaysAgo">When its chart was read.</param>
internal sealed record DemoCondition(string Paper, string Printer, string MediaSetting, int DaysAgo);

namespace Goodsheet.Room.Shelf;

/// <summary>Where paper can be. Every move takes it from one account and puts it in another.</summary>
/// <param name="Text">As stored: a kind, and for a printer or waste which one: "shelf", "printer:heron", "waste:curl".</param>
public readonly record struct Account(string Text)
{
    private const string PrinterKind = "printer:";
    private const string WasteKind = "waste:";

    /// <summary>Outside, where paper comes from and returns to.</summary>
    public static Account Supplier { get; } = new("supplier");

    public static Account Shelf { get; } = new("shelf");

    public static Account Good { get; } = new("good");

    /// <summary>Charts, strips and proofs of the room's own.</summary>
    public static Account Tests { get; } = new("tests");

    /// <summary>Cut into smaller pieces, which come out of here into lots of their own.</summary>
    public static Account Trimmed { get; } = new("trimmed");

    /// <summary>What a stock count found to differ from the ledger.</summary>
    public static Account CountDifference { get; } = new("count difference");

    public static Account Scrap { get; } = new("scrap");

    /// <summary>Of what is not paper: used up.</summary>
    public static Account Used { get; } = new("used");

    public bool IsPrinter => Text.StartsWith(PrinterKind, StringComparison.Ordinal);

    public bool IsWaste => Text.StartsWith(WasteKind, StringComparison.Ordinal);

    /// <summary>Places that hold paper and so can never go below nothing; the others only count.</summary>
    public bool Holds => this == Shelf || IsPrinter;

    /// <summary>Which printer or which cause of waste.</summary>
    public string Name => Text[(Text.IndexOf(':', StringComparison.Ordinal) + 1)..];

    public static Account At(Printers.PrinterCode printer) => new(PrinterKind + printer.Value);

    public static Account Waste(WasteCause cause) => new(WasteKind + cause.ToString().ToLowerInvariant());

    public override string ToString() => Text;
}

/// <summary>Why a sheet was lost. The cause says whom it concerns: control, care, feed advice or intake.</summary>
public enum WasteCause
{
    Colour = 1,
    Curl = 2,
    HeadStrike = 3,
    Dust = 4,
    Misfeed = 5,
    WrongSize = 6,
    Nozzle = 7,
    Handling = 8,
    Other = 9,
}

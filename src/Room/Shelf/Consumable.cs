namespace Goodsheet.Room.Shelf;

/// <summary>The room's short name of a consumable, such as "heron-matte-black".</summary>
public readonly record struct ConsumableCode(string Value)
{
    public override string ToString() => Value;
}

/// <summary>What is used up beside paper.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum ConsumableKind
{
    /// <summary>A cartridge or bag of one channel.</summary>
    Ink = 1,

    WasteTank = 2,
    Blade = 3,

    /// <summary>A varnish or spray that goes over prints.</summary>
    Coat = 4,

    Gloves = 5,
    Other = 6,
}

/// <summary>An ink, a tank, a blade: counted in pieces, with lots and dates as paper has.</summary>
public sealed class Consumable
{
    public required ConsumableCode Code { get; init; }

    public required string Name { get; set; }

    public required ConsumableKind Kind { get; init; }

    /// <summary>The printer it fits; none when it fits no single one.</summary>
    public Printers.PrinterCode? Printer { get; init; }

    /// <summary>Of ink its channel: "matte black", "light cyan".</summary>
    public string Channel { get; init; } = "";

    /// <summary>What one piece holds, in ml; 0 where it holds nothing.</summary>
    public double Millilitres { get; set; }

    /// <summary>At so many pieces or fewer more is to be ordered.</summary>
    public long ReorderAt { get; set; }

    /// <summary>What one costs, in the room's currency, before tax; none if that is not written down.</summary>
    public decimal? Price { get; set; }

    public string Place { get; set; } = "";

    public Buying.SupplierCode? Supplier { get; set; }

    /// <summary>Whether a piece goes into a printer and stays there till the next: ink and waste tanks.</summary>
    public bool GoesIntoPrinter => Printer is not null && Kind is ConsumableKind.Ink or ConsumableKind.WasteTank;
}

/// <summary>Pieces of one consumable that came together.</summary>
public sealed class ConsumableLot
{
    public required ConsumableCode Consumable { get; init; }

    /// <summary>From 1 for each consumable.</summary>
    public required int Number { get; init; }

    public required DateOnly Received { get; init; }

    /// <summary>The last day it is good by the maker's word.</summary>
    public DateOnly? BestBefore { get; init; }

    public string MakersNumber { get; init; } = "";
}

/// <summary>Pieces of a consumable that went from one account to another. Written once.</summary>
/// <remarks>As <see cref="Move"/>: numbered without gaps for each consumable, both its ends in one row.</remarks>
public sealed record ConsumableMove(
    ConsumableCode Consumable, int Number, CommandId Command, int Line, int Lot, Account From, Account To, long Quantity,
    string? Reason, DateTimeOffset At, People.PersonName By);

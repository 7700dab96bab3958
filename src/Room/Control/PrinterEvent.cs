using Goodsheet.Room.People;
using Goodsheet.Room.Printers;

namespace Goodsheet.Room.Control;

/// <summary>What can befall a printer that its prints may show.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum EventKind
{
    HeadCleaning = 1,
    HeadAlignment = 2,
    NewHead = 3,
    Service = 4,
    Moved = 5,
    Other = 6,
}

/// <summary>Something that was done to a printer or befell it, on the day it did. It stands in the control plots of all its papers.</summary>
public sealed class PrinterEvent
{
    public required Guid Id { get; init; }

    public required PrinterCode Printer { get; init; }

    public required EventKind Kind { get; init; }

    public string Note { get; init; } = "";

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    public string InWords => Note.Length == 0 ? Words(Kind) : $"{Words(Kind)}: {Note}";

    public static string Words(EventKind kind) => kind switch
    {
        EventKind.HeadCleaning => "Head cleaned",
        EventKind.HeadAlignment => "Head aligned",
        EventKind.NewHead => "New head",
        EventKind.Service => "Serviced",
        EventKind.Moved => "Printer moved",
        _ => "Something else",
    };

    /// <summary>Whether colours are so likely to differ after it that a strip is due at once. Common practice, no source.</summary>
    public static bool AsksForStrip(EventKind kind) => kind is EventKind.NewHead or EventKind.Service or EventKind.Moved;
}

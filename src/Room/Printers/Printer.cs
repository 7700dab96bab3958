using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Printers;

/// <summary>The room's short name of a printer.</summary>
public readonly record struct PrinterCode(string Value)
{
    public override string ToString() => Value;
}

public enum InkKind
{
    Pigment = 1,
    Dye = 2,
}

/// <summary>How files come to a printer.</summary>
/// <remarks>The numbers are stored: never change one, add at the end.</remarks>
public enum HandOver
{
    /// <summary>A person takes the file from the page and prints it from the driver.</summary>
    ByHand = 1,

    /// <summary>Into a folder of the room, which the driver's machine looks into.</summary>
    Folder = 2,

    /// <summary>Over the network, by the Internet Printing Protocol.</summary>
    Network = 3,
}

/// <summary>A printer as the room uses it.</summary>
public sealed class Printer
{
    public required PrinterCode Code { get; init; }

    public required string Name { get; set; }

    public required InkKind Inks { get; set; }

    /// <summary>Photo and matte black share a line: changing between them purges ink.</summary>
    public bool BlacksShareALine { get; set; }

    public double MinutesToPhoto { get; set; }

    public double MlToPhoto { get; set; }

    public double MinutesToMatte { get; set; }

    public double MlToMatte { get; set; }

    /// <summary>The widest paper it takes.</summary>
    public required Length Width { get; set; }

    /// <summary>Whether each way of feeding is there, as bits: 1 stack, 2 two or three, 4 one by one, 8 roll.</summary>
    public int FeedPaths { get; set; }

    /// <summary>Its own resolution, in pixels per inch: files are made at it.</summary>
    public int Ppi { get; set; } = 360;

    /// <summary>The margins it cannot print: on sheets, on each side.</summary>
    public Length Margin { get; set; } = Length.FromMillimetres(5);

    /// <summary>Square metres it prints in an hour, as measured in this room.</summary>
    public double SquareMetresPerHour { get; set; } = 2;

    public string Firmware { get; set; } = "";

    public string Driver { get; set; } = "";

    /// <summary>How the room hands files to it.</summary>
    public HandOver HandOver { get; set; } = HandOver.ByHand;

    /// <summary>Its address on the network, "ipp://..."; empty when it has none.</summary>
    public string Address { get; set; } = "";

    /// <summary>Its driver takes 8 bits a channel only: files are dithered down to them.</summary>
    public bool EightBits { get; set; }

    public bool Gone { get; set; }

    public bool Feeds(Feed feed) => (FeedPaths & (1 << ((int)feed - 1))) != 0;
}

/// <summary>What is on a printer now. What is left of it is in the ledger, at the printer's account.</summary>
public sealed class Loaded
{
    public required PrinterCode Printer { get; init; }

    /// <summary>The roll or stack that is in it; none when it is empty.</summary>
    public LotCode? Lot { get; set; }

    public required BlackInk Black { get; set; }

    public string MediaSetting { get; set; } = "";

    public DateTimeOffset Since { get; set; }

    public PersonName By { get; set; }
}

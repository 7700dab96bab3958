namespace Goodsheet.Room.Money;

/// <summary>What things cost in this room, from a day on. All figures are the room's own: none comes with the program.</summary>
public sealed class Rates
{
    public required int Number { get; init; }

    public required DateOnly From { get; init; }

    /// <summary>As it is written after an amount: "EUR", "kr".</summary>
    public required string Currency { get; init; }

    /// <summary>Of ink, for a ml.</summary>
    public decimal InkPerMl { get; init; }

    /// <summary>Ink a square metre takes, until runs have told better.</summary>
    public decimal MlPerSquareMetre { get; init; }

    /// <summary>Purged and cleaned away for each ml printed: .1 is a tenth.</summary>
    public decimal PurgeShare { get; init; }

    /// <summary>Of a printer, for a minute: see <see cref="Capacity"/>.</summary>
    public decimal PrinterPerMinute { get; init; }

    /// <summary>Of a person, for a minute.</summary>
    public decimal PersonPerMinute { get; init; }

    /// <summary>A person's minutes for each print beside feeding: cutting, looking, packing.</summary>
    public decimal PersonMinutesPerPrint { get; init; }

    /// <summary>Of prints that do not come out well: .04 is four in a hundred.</summary>
    public decimal SpoilRate { get; init; }

    /// <summary>Rent, light, all that no print causes, as a part of the cost before it.</summary>
    public decimal Overhead { get; init; }

    /// <summary>What is left of the price: (price - cost) / price.</summary>
    public decimal Margin { get; init; }

    /// <summary>No order is under it, before tax.</summary>
    public decimal MinimumCharge { get; init; }

    /// <summary>Prices of one print are rounded up to a multiple of it: .05, .5, 1; 0 for the cent.</summary>
    public decimal RoundUpTo { get; init; }

    /// <summary>As it stands on a quotation; empty for none.</summary>
    public string TaxName { get; init; } = "";

    public decimal Tax { get; init; }

    /// <summary>Quantity steps as "10: 5, 25: 10": from ten copies of a print on five per cent off, from 25 ten.</summary>
    public string Steps { get; init; } = "";
}

/// <summary>What a square metre of a paper costs, from a day on, where no price of a supplier is kept.</summary>
public sealed class PaperPrice
{
    public required Papers.PaperCode Paper { get; init; }

    public required DateOnly From { get; init; }

    public required decimal PerSquareMetre { get; init; }
}

/// <summary>A client's own price for a square metre of a paper, from a day on; it goes before the reckoned one.</summary>
public sealed class ClientPrice
{
    public required int Client { get; init; }

    public required Papers.PaperCode Paper { get; init; }

    public required DateOnly From { get; init; }

    public required decimal PerSquareMetre { get; init; }
}

/// <summary>A quotation as it was given; never changed, a later one replaces it.</summary>
public sealed class OrderQuote
{
    public required int Order { get; init; }

    public required int Number { get; init; }

    public required DateTimeOffset At { get; init; }

    public required People.PersonName By { get; init; }

    public required string Currency { get; init; }

    public required decimal Cost { get; init; }

    public required decimal Net { get; init; }

    public required decimal Tax { get; init; }

    /// <summary>The quotation in words, as it was sent.</summary>
    public required string Text { get; init; }
}

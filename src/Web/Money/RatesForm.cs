using Goodsheet.Room;
using Goodsheet.Room.Money;

namespace Goodsheet.Web.Money;

/// <summary>The rates as they are typed: parts in per cent.</summary>
internal sealed class RatesForm
{
    public Guid Command { get; set; } = CommandId.New().Value;

    public string Currency { get; set; } = "";

    public decimal Ink { get; set; }

    public decimal MlPerSquareMetre { get; set; }

    public decimal Purge { get; set; }

    public decimal Printer { get; set; }

    public decimal Person { get; set; }

    public decimal PersonMinutes { get; set; }

    public decimal Spoil { get; set; }

    public decimal Overhead { get; set; }

    public decimal Margin { get; set; }

    public decimal Minimum { get; set; }

    public decimal RoundUpTo { get; set; }

    public string TaxName { get; set; } = "";

    public decimal Tax { get; set; }

    public string Steps { get; set; } = "";

    public static RatesForm Of(Rates? rates) => rates is null ? new() : new()
    {
        Currency = rates.Currency,
        Ink = rates.InkPerMl,
        MlPerSquareMetre = rates.MlPerSquareMetre,
        Purge = 100 * rates.PurgeShare,
        Printer = rates.PrinterPerMinute,
        Person = rates.PersonPerMinute,
        PersonMinutes = rates.PersonMinutesPerPrint,
        Spoil = 100 * rates.SpoilRate,
        Overhead = 100 * rates.Overhead,
        Margin = 100 * rates.Margin,
        Minimum = rates.MinimumCharge,
        RoundUpTo = rates.RoundUpTo,
        TaxName = rates.TaxName,
        Tax = 100 * rates.Tax,
        Steps = rates.Steps,
    };
}

internal sealed class PriceForm
{
    public string Paper { get; set; } = "";

    /// <summary>0 for what the paper costs the room.</summary>
    public int Client { get; set; }

    public decimal PerSquareMetre { get; set; }
}

using Goodsheet.Room.People;

namespace Goodsheet.Room.Profiles;

/// <summary>A measuring instrument, known by its serial number.</summary>
public sealed class Instrument
{
    public required string Serial { get; init; }

    /// <summary>What the room calls it.</summary>
    public required string Name { get; set; }

    /// <summary>The serial of the white tile that belongs to it.</summary>
    public string Tile { get; set; } = "";

    /// <summary>The day of its last certificate.</summary>
    public DateOnly? CertifiedOn { get; set; }

    /// <summary>How many months a certificate is held good for.</summary>
    public int CertificateMonths { get; set; } = 12;

    public DateOnly? CertificateEnds => CertifiedOn?.AddMonths(CertificateMonths);
}

/// <summary>The check tile, read on one day.</summary>
public sealed class TileReading
{
    public required Guid Id { get; init; }

    public required string Instrument { get; init; }

    public required double L { get; init; }

    public required double A { get; init; }

    public required double B { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }
}

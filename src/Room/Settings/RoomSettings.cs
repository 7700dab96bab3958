namespace Goodsheet.Room.Settings;

/// <summary>What the room says of itself, one row.</summary>
public sealed class RoomSettings
{
    public const int OnlyRow = 1;

    public int Id { get; init; } = OnlyRow;

    public string Name { get; set; } = "The print room";

    /// <summary>A demonstration: its people, papers and figures are invented, and every page says so.</summary>
    public bool IsDemo { get; set; }

    /// <summary>The IANA name of the room's time zone.</summary>
    public string TimeZone { get; set; } = "Europe/London";

    /// <summary>How numbers are written: one of <see cref="NumberForm.All"/>.</summary>
    public string Culture { get; set; } = "en-GB";

    /// <summary>The one address printed into every QR code, such as "http://192.168.1.20:5080"; none until it is stated.</summary>
    public string? Address { get; set; }

    public TimeOnly Opens { get; set; } = new(8, 30);

    public TimeOnly Closes { get; set; } = new(17, 30);
}

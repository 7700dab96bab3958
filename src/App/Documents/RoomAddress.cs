using Goodsheet.Room.Settings;

namespace Goodsheet.App.Documents;

/// <summary>Where a phone finds the room: the one address that was stated, for every QR code.</summary>
public static class RoomAddress
{
    /// <summary>Without a slash at its end; none until the room has stated it.</summary>
    public static string? Of(RoomSettings? settings) => settings?.Address?.Trim().TrimEnd('/') is { Length: > 0 } address ? address : null;
}

namespace Goodsheet.Room.Profiles;

/// <summary>What the checks say of a profile today.</summary>
public enum Standing
{
    New = 1,
    Trusted = 2,
    Due = 3,
    Drifting = 4,
    Retired = 5,
}

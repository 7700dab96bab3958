using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;

namespace Goodsheet.App.Printing;

/// <summary>Whether the disk has room for sheets and for the pieces they are made of, which lie there at the same time.</summary>
internal static class RoomForSheets
{
    private const int MostChannels = 4;

    /// <summary>Why they cannot be begun; none when there is room.</summary>
    /// <param name="disk">Asked; none for this machine's own.</param>
    /// <param name="path">Where they come to lie.</param>
    /// <param name="profile">Of the paper, which says how many channels there are; a damaged one is refused by whoever opens it to print.</param>
    /// <param name="bytes">What all of it takes with so many channels.</param>
    public static PictureFault? Lacks(DiskRoom? disk, string path, byte[]? profile, Func<int, long> bytes)
    {
        var channels = profile is null ? MostChannels : IccProfile.Read(profile).Profile?.Header.Space.Channels() ?? MostChannels;
        return (disk ?? DiskRoom.OfThisMachine).Lacks(path, bytes(channels));
    }
}

using System.Globalization;

namespace Goodsheet.Imaging;

/// <summary>Whether a disk has room for large files before they are begun, so that none fails half-way.</summary>
/// <remarks>Beside the files a margin stays free, for all else that is written there: as much as they take, at most <see cref="MostMargin"/>.</remarks>
/// <param name="free">The bytes free on the disk that a path lies on; none where the system does not say.</param>
public sealed class DiskRoom(Func<string, long?> free)
{
    /// <summary>More than this need not stay free, in bytes.</summary>
    public const long MostMargin = 500_000_000;

    /// <summary>The disks of this machine.</summary>
    public static DiskRoom OfThisMachine { get; } = new(FreeOn);

    /// <summary>Why files cannot be begun; none when there is room, or nobody knows.</summary>
    /// <param name="path">One of them, or the folder they come to lie in.</param>
    /// <param name="bytes">What all of them take at the time when it is most.</param>
    public PictureFault? Lacks(string path, long bytes)
    {
        var margin = Math.Min(bytes, MostMargin);
        return free(path) is { } there && there < bytes + margin
            ? new PictureFault($"The disk has no room: {Size(bytes)} are needed and {Size(margin)} have to stay free, but only {Size(there)} are. Nothing was written. Make room on it, then try again.")
            : null;
    }

    /// <summary>Bytes of the pixels of a file.</summary>
    internal static long Of(int width, int height, int channels, bool eightBits) => (long)width * height * channels * (eightBits ? 1 : 2);

    private static string Size(long bytes) => bytes >= 1_000_000_000
        ? string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e9:0.0} GB")
        : string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.#} MB");

    private static long? FreeOn(string path)
    {
        try
        {
            var whole = Path.GetFullPath(path);
            return new DriveInfo(Directory.Exists(whole) ? whole : Path.GetDirectoryName(whole)!).AvailableFreeSpace; // of the folder: the file is not there yet
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return null; // a share of another machine: the file is begun, and says itself when its disk is full
        }
    }
}

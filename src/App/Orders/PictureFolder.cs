using Goodsheet.App.Files;
using Goodsheet.Imaging;

namespace Goodsheet.App.Orders;

/// <summary>Takes pictures out of a folder by their plain names, each looked through and kept once.</summary>
internal sealed class PictureFolder(string folder, FileShelf files)
{
    private readonly Dictionary<string, (Taken? Picture, string? Why)> known = new(StringComparer.Ordinal);

    /// <summary>A name that means one file in this folder on every system, and nothing else.</summary>
    public static bool IsPlainName(string name) =>
        name.Length is > 0 and <= 200 && name.Trim() == name && name[0] is not ('.' or '~') && !name.EndsWith('.')
        && !name.Any(c => char.IsControl(c) || c is '/' or '\\' or ':' or '*' or '?' or '"' or '<' or '>' or '|');

    /// <param name="name">As the list gives it.</param>
    /// <param name="keep">Keep it for good; otherwise only its head is looked at.</param>
    /// <param name="cancel">Stops it.</param>
    public async Task<(Taken? Picture, string? Why)> TakeAsync(string name, bool keep, CancellationToken cancel)
    {
        if (!known.TryGetValue(name, out var found))
        {
            known[name] = found = await ReadAsync(name, keep, cancel);
        }

        return found;
    }

    private async Task<(Taken?, string?)> ReadAsync(string name, bool keep, CancellationToken cancel)
    {
        if (!IsPlainName(name))
        {
            return (null, $"“{name}” is no plain file name: no folders, no signs like : or *");
        }

        var file = new FileInfo(Path.Combine(folder, name));
        if (!file.Exists || file.LinkTarget is not null)
        {
            return (null, file.Exists ? $"“{name}” is a link to somewhere else" : $"there is no picture “{name}” in the folder");
        }

        try
        {
            return await LookAsync(file, name, keep, files, cancel);
        }
        catch (Exception e) when (e is UnauthorizedAccessException || (e is IOException && !DiskFull.IsCauseOf(e)))
        {
            return (null, $"“{name}” could not be opened");
        }
    }

    /// <summary>Looks a picture through and keeps it; or only at its head.</summary>
    public static async Task<(Taken? Picture, string? Why)> LookAsync(FileInfo file, string name, bool keep, FileShelf files, CancellationToken cancel)
    {
        var read = await Task.Run(() => keep ? ImageFile.ReadThrough(file.FullName) : ImageFile.Probe(file.FullName), cancel);
        if ((read.Fault?.Message ?? PictureSource.ProfileOf(read.Value!).Fault?.Message ?? Shape(read.Value!)) is { } why)
        {
            return (null, $"{name}: {why}");
        }

        if (!keep)
        {
            return (new("", read.Value!), null);
        }

        await using var content = file.OpenRead();
        return (new((await files.KeepAsync(content, cancel)).Hash, read.Value!), null);
    }

    /// <summary>Why a picture of such a shape is none; null when it is one.</summary>
    public static string? Shape(ImageFile image) => Math.Min(image.Width, image.Height) < LeastSide
        ? $"{image.Width} × {image.Height} pixels are a line, not a picture."
        : null;

    private const int LeastSide = 16; // pixels; common sense, no source

    internal sealed record Taken(string Hash, ImageFile Image);
}

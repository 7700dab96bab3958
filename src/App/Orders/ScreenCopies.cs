using Goodsheet.App.Files;
using Goodsheet.Imaging;
using Goodsheet.Room;

namespace Goodsheet.App.Orders;

/// <summary>Clients' pictures made small for the screen: made when first asked for, and made anew when they are gone.</summary>
public sealed class ScreenCopies(FileShelf files)
{
    private string Folder => Path.Combine(Path.GetDirectoryName(Path.GetFullPath(files.Folder))!, "screen");

    /// <summary>Where the copy of a kept picture is.</summary>
    public async Task<Outcome<string>> OfAsync(string imageHash, CancellationToken cancel)
    {
        if (!files.Has(imageHash))
        {
            return new PictureIsGone();
        }

        var path = Path.Combine(Folder, $"{imageHash}.tif");
        if (File.Exists(path))
        {
            return path;
        }

        Directory.CreateDirectory(Folder);
        var made = await Task.Run(() => ScreenCopy.Write(files.PathOf(imageHash), path), cancel);
        return made.Fault is { } fault ? new PictureCannotBeShown(fault.Message) : path;
    }

    public sealed record PictureIsGone() : Refusal("The picture's file is no longer kept in this room. Bring it in again.");

    public sealed record PictureCannotBeShown(string Why) : Refusal(Why);
}

using Goodsheet.App.Files;
using Goodsheet.Imaging;
using Goodsheet.Room;

namespace Goodsheet.App.Orders;

/// <summary>Keeps a picture that a program sends, when it can be printed at all.</summary>
public sealed class KeepPicture(FileShelf files)
{
    public async Task<Outcome<Done>> RunAsync(Stream content, CancellationToken cancel = default)
    {
        var kept = await files.KeepAsync(content, cancel);
        var read = await Task.Run(() => ImageFile.ReadThrough(files.PathOf(kept.Hash)), cancel);
        var why = read.Fault?.Message ?? PictureSource.ProfileOf(read.Value!).Fault?.Message ?? PictureFolder.Shape(read.Value!);
        return why is null ? new Done(kept.Hash, read.Value!.Width, read.Value.Height) : new CannotBePrinted(why);
    }

    public sealed record Done(string Hash, int PixelsWide, int PixelsHigh);

    public sealed record CannotBePrinted(string Why) : Refusal(Why);
}

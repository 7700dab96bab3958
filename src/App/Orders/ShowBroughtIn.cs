using Goodsheet.App.Files;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;

namespace Goodsheet.App.Orders;

/// <summary>A picture that was brought in and belongs to no order yet: its shape, and small for the page.</summary>
public sealed class ShowBroughtIn(FileShelf files, ScreenCopies copies)
{
    private const int LongSide = 1_000; // pixels; twice as many as the page draws it large

    public async Task<Outcome<Picture>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (!files.Has(request.Hash))
        {
            return new TakeOrder.NoPicture();
        }

        var probe = await Task.Run(() => ImageFile.Probe(files.PathOf(request.Hash)), cancel);
        return probe.Value is not { } image || PictureFolder.Shape(image) is not null
            ? new TakeOrder.PictureRefused(request.Name, probe.Fault?.Message ?? PictureFolder.Shape(probe.Value!)!)
            : new Picture(new(image.Width, image.Height));
    }

    /// <returns>A JPEG; none when the picture cannot be read.</returns>
    public async Task<byte[]?> SmallAsync(string hash, CancellationToken cancel = default) =>
        (await copies.OfAsync(hash, cancel)).Value is { } path ? await Task.Run(() => Thumbnail.Jpeg(path, LongSide), cancel) : null;

    /// <param name="Hash">The SHA-256 of its file.</param>
    /// <param name="Name">What its file is called.</param>
    public sealed record Request(string Hash, string Name);

    public sealed record Picture(PictureShape Shape);
}

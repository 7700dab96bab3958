using Goodsheet.Imaging;
using Goodsheet.Room;

namespace Goodsheet.App.Orders;

/// <summary>Makes a print-ready file out of a picture's file, without a room: a TIFF, or a PDF where its name says so.</summary>
public sealed class PrepareImage(TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        foreach (var name in (string[])[request.Image, request.Profile])
        {
            if (!File.Exists(name))
            {
                return new CheckImage.NotThere(name);
            }
        }

        var folder = Path.GetDirectoryName(Path.GetFullPath(request.Output));
        if (!Directory.Exists(folder))
        {
            return new CheckImage.Refused($"There is no folder {folder}.");
        }

        var profile = await File.ReadAllBytesAsync(request.Profile, cancel);
        var pdf = request.Output.EndsWith(".pdf", StringComparison.OrdinalIgnoreCase);
        var tiff = pdf ? request.Output + ".preparing.tif" : request.Output;
        try
        {
            var made = await Task.Run(() => PrintPreparation.Run(request.Image, profile, request.Recipe, tiff, progress, null, cancel), cancel);
            if (made.Value is not { } done)
            {
                return new CheckImage.Refused(made.Fault!.Message);
            }

            var title = new PdfTitle(Path.GetFileNameWithoutExtension(request.Image), Path.GetFileNameWithoutExtension(request.Profile), clock.GetUtcNow());
            var fault = pdf ? await Task.Run(() => PdfFile.Write(request.Output, [PdfFile.Page(tiff, request.Recipe)], profile, title, null, cancel), cancel) : null;
            return fault is null
                ? new Done(request.Output, done.Width, done.Height, done.Channels, request.Recipe.Ppi)
                : new CheckImage.Refused(fault.Message);
        }
        finally
        {
            if (pdf)
            {
                File.Delete(tiff);
            }
        }
    }

    public sealed record Request(string Image, string Profile, PrintRecipe Recipe, string Output);

    public sealed record Done(string File, int PixelsWide, int PixelsHigh, int Channels, double Ppi);
}

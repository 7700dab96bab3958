using Goodsheet.Imaging;
using Goodsheet.Room;

namespace Goodsheet.App.Orders;

/// <summary>Makes a print-ready file out of a picture's file, without a room.</summary>
public sealed class PrepareImage
{
#pragma warning disable CA1822 // a use case is an instance, like every other
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
        var made = await Task.Run(() => PrintPreparation.Run(request.Image, profile, request.Recipe, request.Output, progress, cancel), cancel);
        return made.Value is { } done
            ? new Done(request.Output, done.Width, done.Height, done.Channels, request.Recipe.Ppi)
            : new CheckImage.Refused(made.Fault!.Message);
    }
#pragma warning restore CA1822

    public sealed record Request(string Image, string Profile, PrintRecipe Recipe, string Output);

    public sealed record Done(string File, int PixelsWide, int PixelsHigh, int Channels, double Ppi);
}

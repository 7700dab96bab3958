using Goodsheet.App.Printing;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Makes the tiles of a picture's print, without a room: a TIFF each and one PDF of them all; or only says how it would be parted.</summary>
public sealed class CutTiles(TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        if (!File.Exists(request.Image) || !File.Exists(request.Profile))
        {
            return new CheckImage.NotThere(File.Exists(request.Image) ? request.Profile : request.Image);
        }

        var recipe = request.Recipe;
        var tiled = Tiling.Of(
            Length.NearestToMillimetres(recipe.WidthMm), Length.NearestToMillimetres(recipe.HeightMm), request.PaperWidth, request.PaperLength,
            Length.NearestToMillimetres(TileFiles.MarginMm), request.Overlap);
        if (tiled.Value is not { } tiling)
        {
            return tiled.Refusal!;
        }

        if (request.Folder is not { } folder)
        {
            return new Done(tiling, []);
        }

        if (!Directory.Exists(folder))
        {
            return new CheckImage.Refused($"There is no folder {folder}.");
        }

        var name = Path.GetFileNameWithoutExtension(request.Image);
        string Output(Tile tile) => Path.Combine(folder, $"{name}-tile-{tile.Number}-of-{tiling.Tiles.Count}.tif");
        var profile = await File.ReadAllBytesAsync(request.Profile, cancel);
        var says = FormattableString.Invariant($"{name} - {recipe.WidthMm:0.#} by {recipe.HeightMm:0.#} mm together - {Path.GetFileNameWithoutExtension(request.Profile)}");
        var disk = request.Disk;
        var made = await Task.Run(() => TileFiles.Write(new(request.Image, profile, recipe, tiling, says, Output), progress, disk, cancel), cancel);
        if (made.Fault is { } none)
        {
            return new CheckImage.Refused(none.Message);
        }

        var (pdf, whole) = (Path.Combine(folder, $"{name}-tiles.pdf"), false);
        try
        {
            var title = new PdfTitle(name, Path.GetFileNameWithoutExtension(request.Profile), clock.GetUtcNow());
            var fault = await Task.Run(() => PdfFile.Write(pdf, TileFiles.Pages(tiling, recipe, Output), profile, title, disk, cancel), cancel);
            whole = fault is null;
            return whole ? new Done(tiling, [.. tiling.Tiles.Select(Output), pdf]) : new CheckImage.Refused(fault!.Message);
        }
        finally
        {
            if (!whole)
            {
                tiling.Tiles.Select(Output).ToList().ForEach(File.Delete);
            }
        }
    }

    /// <param name="PaperLength">Of a sheet; none for a roll.</param>
    /// <param name="Folder">Where to; none to be only told.</param>
    /// <param name="Disk">Asked whether there is room; none for this machine's own.</param>
    public sealed record Request(string Image, string Profile, PrintRecipe Recipe, Length PaperWidth, Length? PaperLength, Length Overlap, string? Folder, DiskRoom? Disk = null);

    public sealed record Done(Tiling Tiling, IReadOnlyList<string> Files);
}

using Goodsheet.App.Printing;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Makes a sheet of small proofs of a picture, without a room: intents and lightness on one paper, or other papers shown on it.</summary>
public sealed class SetProofs(TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        foreach (var name in (string[])[request.Image, request.Profile, .. request.Others])
        {
            if (!File.Exists(name))
            {
                return new CheckImage.NotThere(name);
            }
        }

        var probed = ImageFile.Probe(request.Image);
        if (probed.Value is not { } image)
        {
            return new CheckImage.Refused(probed.Fault!.Message);
        }

        var profile = await File.ReadAllBytesAsync(request.Profile, cancel);
        var others = new List<(string, byte[])>();
        foreach (var other in request.Others)
        {
            others.Add((Path.GetFileNameWithoutExtension(other), await File.ReadAllBytesAsync(other, cancel)));
        }

        var paper = Path.GetFileNameWithoutExtension(request.Profile);
        var cells = others.Count > 0 ? ProofCells.Papers(paper, others, request.Recipe.Intent, request.Recipe.BlackPointCompensation) : ProofCells.Intents();
        var pdf = request.Output.EndsWith(".pdf", StringComparison.OrdinalIgnoreCase);
        var tiff = pdf ? request.Output + ".preparing.tif" : request.Output;
        try
        {
            var says = $"{Path.GetFileNameWithoutExtension(request.Image)} - {paper}";
            var made = await Task.Run(() => ProofSheetFile.Write(
                new(request.Image, profile, request.Recipe, (double)image.Width / image.Height, cells, request.Sheet.Width.Millimetres, request.Sheet.Height.Millimetres, says, tiff), progress, null, cancel), cancel);
            var fault = made.Fault ?? (pdf ? await Task.Run(() => PdfFile.Write(request.Output, [new(tiff, request.Recipe.Ppi)], profile, new(says, paper, clock.GetUtcNow()), null, cancel), cancel) : null);
            return fault is null ? new Done(request.Output, [.. cells.Select(c => c.Label)], made.Value!.Width, made.Value.Height) : new CheckImage.Refused(fault.Message);
        }
        finally
        {
            if (pdf)
            {
                File.Delete(tiff);
            }
        }
    }

    /// <param name="Others">Profiles of other papers, shown on this one; none for intents and lightness.</param>
    /// <param name="Sheet">What can be printed of the sheet.</param>
    public sealed record Request(string Image, string Profile, IReadOnlyList<string> Others, PrintRecipe Recipe, LengthText.StatedSize Sheet, string Output);

    public sealed record Done(string File, IReadOnlyList<string> Proofs, int PixelsWide, int PixelsHigh);
}

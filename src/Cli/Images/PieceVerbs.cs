using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Orders;
using Goodsheet.Imaging;
using Goodsheet.Room.Units;

namespace Goodsheet.Cli.Images;

/// <summary><c>image strip</c>, <c>image tiles</c> and <c>image proofs</c>: what is printed beside, before or instead of the whole.</summary>
internal static class PieceVerbs
{
    private static readonly Option<LengthText.StatedSize?> StripSize = ImageVerbs.Sized("--strip", "Width by height of the strip, as 100x70mm.", required: true);
    private static readonly Option<LengthText.StatedSize?> At = ImageVerbs.Sized("--at", "From the left and from above, as 120x80mm; what is proposed if nothing is said.", required: false);
    private static readonly Option<string> StripOut = new("--out") { Description = "Where to write the TIFF.", Required = true };

    private static readonly Option<LengthText.Stated?> Paper = ImageVerbs.Measured("--paper", "Width of the paper across the feed, as 610mm.", 610);
    private static readonly Option<LengthText.Stated?> Length = ImageVerbs.Measured("--paper-length", "Length of a sheet; 0mm for a roll.", 0);
    private static readonly Option<LengthText.Stated?> Overlap = ImageVerbs.Measured("--overlap", "The least that two tiles share, as 20mm.", 20);
    private static readonly Option<string?> Folder = new("--out") { Description = "The folder for a TIFF of each tile and a PDF of all; nothing is written if none is said." };

    private static readonly Option<string[]> Others = new("--other") { Description = "The ICC profile of another paper, shown on this one; may be said again. None for intents and lightness.", Arity = ArgumentArity.ZeroOrMore };
    private static readonly Option<LengthText.StatedSize?> Sheet = ImageVerbs.Sized("--sheet", "What can be printed of the sheet, as 200x287mm.", required: true);
    private static readonly Option<string> ProofsOut = new("--out") { Description = "Where to write the TIFF, or the PDF where the name ends in .pdf.", Required = true };

    public static Command Strip()
    {
        var strip = new Command("strip", "Makes a test strip in full size, prepared as the whole print would be.")
        {
            ImageVerbs.Picture, ImageVerbs.Profile, ImageVerbs.Size, StripSize, At, ImageVerbs.EightBits, ImageVerbs.Intent, ImageVerbs.Compensation, ImageVerbs.Ppi, ImageVerbs.NoSharpening, StripOut, Answer.Json,
        };
        strip.SetAction(async (line, cancel) => await line.GiveAsync(
            await new CutStrip().RunAsync(
                new(line.GetRequiredValue(ImageVerbs.Picture), line.GetRequiredValue(ImageVerbs.Profile), Recipe(line, line.GetValue(ImageVerbs.Size)!),
                    line.GetValue(At) is { } at ? (at.Width, at.Height) : null, line.GetValue(StripSize)!, line.GetRequiredValue(StripOut)), line.Progress(), cancel),
            done => done,
            done => string.Create(CultureInfo.CurrentCulture, $"{done.File}: the print from {done.XMm:0.#}, {done.YMm:0.#} mm on; {done.PixelsWide} × {done.PixelsHigh} pixels with what is written under it.")));
        return strip;
    }

    public static Command Tiles()
    {
        var tiles = new Command("tiles", "Parts a print that is larger than its paper into tiles to trim and join.")
        {
            ImageVerbs.Picture, ImageVerbs.Profile, ImageVerbs.Size, Paper, Length, Overlap, ImageVerbs.EightBits, ImageVerbs.Intent, ImageVerbs.Compensation, ImageVerbs.Ppi, ImageVerbs.NoSharpening, Folder, Answer.Json,
        };
        tiles.SetAction(async (line, cancel) => await line.GiveAsync(
            await new CutTiles(TimeProvider.System).RunAsync(
                new(line.GetRequiredValue(ImageVerbs.Picture), line.GetRequiredValue(ImageVerbs.Profile), Recipe(line, line.GetValue(ImageVerbs.Size)!), line.GetValue(Paper)!.Length,
                    line.GetValue(Length)!.Length is var length && length > Room.Units.Length.Zero ? length : null, line.GetValue(Overlap)!.Length, line.GetValue(Folder)), line.Progress(), cancel),
            done => new
            {
                done.Tiling.Columns,
                done.Tiling.Rows,
                done.Tiling.Turned,
                done.Files,
                Tiles = done.Tiling.Tiles.Select(t => new
                {
                    t.Number,
                    t.Column,
                    t.Row,
                    XMm = t.X.Millimetres,
                    YMm = t.Y.Millimetres,
                    WidthMm = t.Width.Millimetres,
                    HeightMm = t.Height.Millimetres,
                    ShowsWidthMm = (t.Right - t.Left).Millimetres,
                    ShowsHeightMm = (t.Bottom - t.Top).Millimetres,
                }),
            },
            done => string.Join('\n',
            [
                string.Create(CultureInfo.CurrentCulture, $"{done.Tiling.Tiles.Count} tiles, {done.Tiling.Columns} beside and {done.Tiling.Rows} above one another{(done.Tiling.Turned ? ", turned by a quarter on the paper" : "")}; trimmed and joined {done.Tiling.Width.Millimetres:0.#} × {done.Tiling.Height.Millimetres:0.#} mm."),
                .. done.Tiling.Tiles.Select(t => string.Create(CultureInfo.CurrentCulture, $"tile {t.Number}: {t.Width.Millimetres:0.#} × {t.Height.Millimetres:0.#} mm, shows {(t.Right - t.Left).Millimetres:0.#} × {(t.Bottom - t.Top).Millimetres:0.#} mm")),
                .. done.Files,
            ])));
        return tiles;
    }

    public static Command Proofs()
    {
        var proofs = new Command("proofs", "Makes a sheet of small prints of one picture: intents and lightness, or other papers shown on this one.")
        {
            ImageVerbs.Picture, ImageVerbs.Profile, Others, Sheet, ImageVerbs.EightBits, ImageVerbs.Intent, ImageVerbs.Compensation, ImageVerbs.Ppi, ImageVerbs.NoSharpening, ProofsOut, Answer.Json,
        };
        proofs.SetAction(async (line, cancel) => await line.GiveAsync(
            await new SetProofs(TimeProvider.System).RunAsync(
                new(line.GetRequiredValue(ImageVerbs.Picture), line.GetRequiredValue(ImageVerbs.Profile), line.GetValue(Others) ?? [], Recipe(line, line.GetValue(Sheet)!), line.GetValue(Sheet)!, line.GetRequiredValue(ProofsOut)), line.Progress(), cancel),
            done => done,
            done => $"{done.File}: {done.Proofs.Count} proofs, {done.PixelsWide} × {done.PixelsHigh} pixels. {string.Join("; ", done.Proofs)}."));
        return proofs;
    }

    private static PrintRecipe Recipe(ParseResult line, LengthText.StatedSize size)
    {
        var recipe = new PrintRecipe
        {
            WidthMm = size.Width.Millimetres,
            HeightMm = size.Height.Millimetres,
            EightBits = line.GetValue(ImageVerbs.EightBits),
            Ppi = line.GetValue(ImageVerbs.Ppi),
            Intent = line.GetValue(ImageVerbs.Intent),
            BlackPointCompensation = line.GetValue(ImageVerbs.Compensation),
        };
        return line.GetValue(ImageVerbs.NoSharpening) ? recipe with { HaloMm = 0 } : recipe;
    }
}

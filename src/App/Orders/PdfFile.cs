using Goodsheet.Imaging;

namespace Goodsheet.App.Orders;

/// <summary>Print-ready files as a PDF on disk: there whole, under its name, or not at all.</summary>
internal static class PdfFile
{
    /// <summary>A prepared file as a page: cut where its marks are, inside a border and a bleed.</summary>
    /// <param name="file">The TIFF.</param>
    /// <param name="recipe">How it was prepared.</param>
    /// <param name="isBleed">What reaches around the picture is cut away, not folded.</param>
    public static PdfPage Page(string file, PrintRecipe recipe, bool isBleed = false)
    {
        var (border, around) = (recipe.BorderPixels, recipe.WrapPixels);
        var reaches = new PixelBox(border, border, recipe.FullWidth - (2 * border), recipe.FullHeight - (2 * border));
        var cut = isBleed ? new PixelBox(border + around, border + around, recipe.PictureWidth, recipe.PictureHeight) : reaches;
        return new(file, recipe.Ppi, cut, reaches);
    }

    public static PictureFault? Write(string output, IReadOnlyList<PdfPage> pages, byte[] profile, PdfTitle title, DiskRoom? disk, CancellationToken cancel)
    {
        // Packed it is seldom larger than its pages.
        if ((disk ?? DiskRoom.OfThisMachine).Lacks(output, pages.Sum(p => new FileInfo(p.File).Length)) is { } full)
        {
            return full;
        }

        var coming = output + ".coming";
        try
        {
            PictureResult<PdfWritten> made;
            using (var to = new FileStream(coming, FileMode.Create, FileAccess.Write, FileShare.None, 1 << 20))
            {
                made = PdfPrint.Write(to, pages, profile, title, cancel);
            }

            if (made.Fault is null)
            {
                File.Move(coming, output, overwrite: true);
            }

            return made.Fault;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new PictureFault($"The PDF could not be written: {e.Message} Nothing was kept.");
        }
        finally
        {
            File.Delete(coming);
        }
    }
}

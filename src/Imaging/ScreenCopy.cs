using NetVips;

namespace Goodsheet.Imaging;

/// <summary>A picture made small once, in its own colours and with its own profile: what proofs and maps on screen are made from.</summary>
public static class ScreenCopy
{
    /// <summary>Pixels along the longest side: enough for a proof on a large screen.</summary>
    public const int LongestSide = 1_600;

    /// <summary>Writes the copy as a 16-bit TIFF. It is there whole, under its name, or not at all.</summary>
    /// <param name="picture">The picture's file, read once from top to bottom.</param>
    /// <param name="output">Where to.</param>
    public static PictureResult<ImageFile> Write(string picture, string output)
    {
        var probed = ImageFile.Probe(picture);
        if (probed.Value is not { } image)
        {
            return probed.Fault!;
        }

        var coming = $"{output}.{Guid.CreateVersion7():N}.coming";
        try
        {
            var small = SmallPicture.Read(picture, LongestSide);
            using (var tiff = new TiffStrips(coming, small.Width, small.Height, small.Channels))
            {
                tiff.Write(small.Pixels);
                tiff.Finish(72, image.Profile);
            }

            File.Move(coming, output, overwrite: true);
            return ImageFile.Probe(output);
        }
        catch (VipsException e)
        {
            return new PictureFault($"The picture's file is damaged: {ImageFile.FirstLine(e)}");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new PictureFault($"The copy for the screen could not be written: {e.Message}");
        }
        finally
        {
            File.Delete(coming);
        }
    }
}

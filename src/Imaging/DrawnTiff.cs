namespace Goodsheet.Imaging;

/// <summary>A TIFF of 16 bits a channel that is drawn row by row, not made from a picture: charts.</summary>
/// <remarks>It carries no profile: its numbers go to the printer as they are.</remarks>
public static class DrawnTiff
{
    /// <summary>The most pixels along a side.</summary>
    public const int MostPixels = 100_000;

    /// <summary>Writes a file, whole or not at all.</summary>
    /// <param name="path">A new file.</param>
    /// <param name="width">Pixels, 1 to <see cref="MostPixels"/>.</param>
    /// <param name="height">Pixels, 1 to <see cref="MostPixels"/>.</param>
    /// <param name="channels">1 grey, 3 RGB, 4 CMYK.</param>
    /// <param name="ppi">Pixels per inch.</param>
    /// <param name="draw">Fills a row, given from the top: the channels of a pixel side by side.</param>
    /// <exception cref="ArgumentOutOfRangeException">A size or the channels are out of range.</exception>
    /// <exception cref="IOException">The file is there already, or the disk is full.</exception>
    public static void Write(string path, int width, int height, int channels, double ppi, Action<int, ushort[]> draw)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(width, MostPixels);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, MostPixels);
        if (channels is not (1 or 3 or 4))
        {
            throw new ArgumentOutOfRangeException(nameof(channels));
        }

        var whole = false;
        try
        {
            using var tiff = new TiffStrips(path, width, height, channels);
            var row = new ushort[width * channels];
            for (var y = 0; y < height; y++)
            {
                draw(y, row);
                tiff.Write(row);
            }

            tiff.Finish(ppi, null);
            whole = true;
        }
        finally
        {
            if (!whole)
            {
                File.Delete(path);
            }
        }
    }
}

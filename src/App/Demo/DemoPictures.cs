using NetVips;
using Goodsheet.App.Files;
using Goodsheet.Colour.Icc;

namespace Goodsheet.App.Demo;

/// <summary>Paints the pictures of the demonstration: smooth scenes that were never anywhere, and a test wedge.</summary>
internal static class DemoPictures
{
    private const int Wide = 2700;
    private const int High = 1800;

    /// <param name="Hash">Under which the file is kept.</param>
    /// <param name="File">Its name.</param>
    /// <param name="Title">The picture's title.</param>
    public sealed record Picture(string Hash, string File, string Title);

    /// <summary>Paints them into the room's files; the last is too small and says nothing of its colours.</summary>
    public static async Task<IReadOnlyList<Picture>> PaintAsync(FileShelf files, CancellationToken cancel)
    {
        var painted = new List<Picture>();
        foreach (var (file, title, scene) in ((string, string, Scene)[])
        [
            ("hills-that-are-not-there.jpg", "Hills that are not there", (x, y) => DemoScenes.Hills(x, y, warm: true)),
            ("low-water-nowhere.jpg", "Low water, nowhere", DemoScenes.Water),
            ("blue-hour-unmade.jpg", "Blue hour, unmade", (x, y) => DemoScenes.Hills(x, y, warm: false)),
            ("seven-spheres.tif", "Seven spheres", DemoScenes.Spheres),
            ("test-wedge.tif", "Test wedge", DemoScenes.Wedge),
        ])
        {
            painted.Add(await KeepAsync(files, file, title, scene, Wide, High, withProfile: true, cancel));
        }

        painted.Add(await KeepAsync(files, "postcard.jpg", "Postcard from nowhere", DemoScenes.Water, 900, 600, withProfile: false, cancel));
        return painted;
    }

    private static async Task<Picture> KeepAsync(
        FileShelf files, string name, string title, Scene scene, int wide, int high, bool withProfile, CancellationToken cancel)
    {
        var tiff = name.EndsWith(".tif", StringComparison.Ordinal);
        var profile = files.NewPath(".icc");
        var path = files.NewPath(tiff ? ".tif" : ".jpg");
        try
        {
            await File.WriteAllBytesAsync(profile, BuiltInProfiles.SRgb(), cancel);
            using var image = Draw(scene, wide, high, tiff);
            if (tiff)
            {
                image.Tiffsave(path, compression: Enums.ForeignTiffCompression.Deflate, profile: profile, xres: 11.8, yres: 11.8);
            }
            else
            {
                image.Jpegsave(path, q: 90, profile: withProfile ? profile : null, keep: withProfile ? Enums.ForeignKeep.Icc : Enums.ForeignKeep.None);
            }

            return new((await files.KeepMadeAsync(path, cancel)).Hash, name, title);
        }
        finally
        {
            File.Delete(profile);
            File.Delete(path);
        }
    }

    private static Image Draw(Scene scene, int wide, int high, bool sixteen)
    {
        var pixels = new ushort[wide * high * 3];
        Parallel.For(0, high, y =>
        {
            for (var x = 0; x < wide; x++)
            {
                var (r, g, b) = scene((double)x / wide, (double)y / high);
                var at = ((y * wide) + x) * 3;
                pixels[at] = Code(r);
                pixels[at + 1] = Code(g);
                pixels[at + 2] = Code(b);
            }
        });
        using var drawn = Image.NewFromMemory<ushort>(pixels, wide, high, 3, Enums.BandFormat.Ushort);
        using var rgb = drawn.Copy(interpretation: Enums.Interpretation.Rgb16);
        return sixteen ? rgb.CopyMemory() : rgb.Colourspace(Enums.Interpretation.Srgb).CopyMemory();
    }

    private static ushort Code(double value) => (ushort)Math.Round(65535 * Math.Clamp(value, 0, 1));
}

/// <summary>The sRGB colour of a place in a picture; x and y run from 0 to 1, from the top left.</summary>
internal delegate (double R, double G, double B) Scene(double x, double y);

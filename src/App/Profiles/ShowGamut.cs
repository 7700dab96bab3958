using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;

namespace Goodsheet.App.Profiles;

/// <summary>The solid of colours a profile reaches: slices of it, and its surface.</summary>
public sealed class ShowGamut(RoomStore room, FileShelf files)
{
    /// <summary>L* at which slices are taken.</summary>
    public static readonly IReadOnlyList<int> Levels = [25, 50, 75];

    private const int SlicePoints = 25;
    private const int SolidPoints = 13;

    /// <returns>None where there is no such profile, or it has not three channels.</returns>
    public async Task<Shape?> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.Profiles.FindAsync([number], cancel) is { } profile ? await ShapeAsync(files, profile.FileHash, cancel) : null;
    }

    internal static async Task<Shape?> ShapeAsync(FileShelf files, string hash, CancellationToken cancel)
    {
        var printer = await PrinterAsync(files, hash, cancel);
        return printer is null ? null : await Task.Run(() => ShapeOf(printer), cancel);
    }

    /// <summary>The shape of what a printer reaches; none for other than three channels.</summary>
    public static Shape? ShapeOf(ProfilePrinter printer)
    {
        ArgumentNullException.ThrowIfNull(printer);
        if (printer.Channels != 3)
        {
            return null;
        }

        var (fine, coarse) = (GamutSolid.Of(printer, SlicePoints), GamutSolid.Of(printer, SolidPoints));
        return new(
            [.. Levels.Select(l => new Slice(l, Chained([.. fine.Slice(l).Select(p => (double[])[.. Place(p.From), .. Place(p.To)])])))],
            [.. coarse.Triangles.Select(t => (double[])[.. Corner(t.A), .. Corner(t.B), .. Corner(t.C), .. ScreenColour.Of(Middle(t))])]);
    }

    internal static async Task<ProfilePrinter?> PrinterAsync(FileShelf files, string hash, CancellationToken cancel) =>
        files.Has(hash) && IccProfile.Read(await File.ReadAllBytesAsync(files.PathOf(hash), cancel)).Profile is { } icc && icc.ToPcs(RenderingIntent.RelativeColorimetric) is not null
            ? new(icc) : null;

    private static double[] Place((double A, double B) at) => [Math.Round(at.A, 4), Math.Round(at.B, 4)];

    // So that each piece begins where the one before ends: an outline that can be drawn dashed.
    private static List<double[]> Chained(List<double[]> pieces)
    {
        var chained = new List<double[]>(pieces.Count);
        while (pieces.Count > 0)
        {
            var next = chained.Count == 0 ? -1 : pieces.FindIndex(p => Meets(chained[^1], p, 0) || Meets(chained[^1], p, 2));
            var piece = pieces[Math.Max(0, next)];
            pieces.RemoveAt(Math.Max(0, next));
            chained.Add(next >= 0 && !Meets(chained[^1], piece, 0) ? [piece[2], piece[3], piece[0], piece[1]] : piece);
        }

        return chained;
    }

    private static bool Meets(double[] before, double[] piece, int end) => before[2] == piece[end] && before[3] == piece[end + 1];

    private static double[] Corner(Lab lab) => [Math.Round(lab.L, 1), Math.Round(lab.A, 1), Math.Round(lab.B, 1)];

    private static Lab Middle((Lab A, Lab B, Lab C) t) => new((t.A.L + t.B.L + t.C.L) / 3, (t.A.A + t.B.A + t.C.A) / 3, (t.A.B + t.B.B + t.C.B) / 3);

    /// <param name="Slices">From dark to light.</param>
    /// <param name="Triangles">Nine numbers, L* a* b* of three corners, then red, green, blue of its colour, 0 to 255.</param>
    public sealed record Shape(IReadOnlyList<Slice> Slices, IReadOnlyList<double[]> Triangles);

    /// <param name="Lightness">L*.</param>
    /// <param name="Pieces">Pieces of its outline: a* b* from, a* b* to.</param>
    public sealed record Slice(int Lightness, IReadOnlyList<double[]> Pieces);
}

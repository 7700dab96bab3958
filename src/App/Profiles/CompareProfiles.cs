using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Colorimetry;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Profiles;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Holds two profiles against each other: what both reach, and how far the same numbers print apart.</summary>
public sealed class CompareProfiles(RoomStore room, FileShelf files)
{
    private const int Steps = 9;
    private const double GreyBelow = 8; // C*ab

    private static readonly (double From, double To)[] Bands = [(double.MinValue, 35), (35, 65), (65, double.MaxValue)]; // dark, middle, light, in L*

    private static readonly string[] Hues = ["Reds", "Yellows", "Greens", "Cyans", "Blues", "Magentas"];

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var numbers = (int[])[request.One, request.Other];
        var hashes = await db.Profiles.AsNoTracking().Where(p => numbers.Contains(p.Number)).ToDictionaryAsync(p => p.Number, p => p.FileHash, cancel);
        if (!hashes.TryGetValue(request.One, out var first) || !hashes.TryGetValue(request.Other, out var second))
        {
            return new NoSuchPair();
        }

        var (one, other) = (await ShowGamut.PrinterAsync(files, first, cancel), await ShowGamut.PrinterAsync(files, second, cancel));
        return one is not { Channels: 3 } || other is not { Channels: 3 } ? new OnlyThreeChannels()
            : await Task.Run(() => Compared(one, other), cancel) with
            {
                FirstSlices = (await ShowGamut.ShapeAsync(files, first, cancel))!.Slices,
                SecondSlices = (await ShowGamut.ShapeAsync(files, second, cancel))!.Slices,
            };
    }

    private static Done Compared(ProfilePrinter one, ProfilePrinter other)
    {
        double[] device = [.. Enumerable.Range(0, Steps * Steps * Steps).SelectMany(i =>
            (double[])[i / (Steps * Steps) / (Steps - 1.0), i / Steps % Steps / (Steps - 1.0), i % Steps / (Steps - 1.0)])];
        var (a, b) = (Colours(one, device), Colours(other, device));
        var pairs = a.Zip(b, (x, y) => (Lab: x, Apart: CieDe2000.Between(x, y))).ToArray();
        var all = ErrorSummary.Of(pairs.Select(p => p.Apart));
        var map = Hues.Append("Greys").Select(hue => new Row(hue, [.. Bands.Select(band =>
            pairs.Where(p => HueOf(p.Lab) == hue && p.Lab.L >= band.From && p.Lab.L < band.To).Select(p => (double?)p.Apart.Value).Average())])).ToList();
        var shared = GamutOverlap.Of(GamutSolid.Of(one), GamutSolid.Of(other));
        return new(shared.First, shared.Second, shared.Shared, all.Mean.Value, all.P95.Value, all.Largest.Value, map, [], []);
    }

    private static Lab[] Colours(ProfilePrinter printer, double[] device)
    {
        var lab = new double[device.Length];
        printer.Predict(device, lab);
        return [.. lab.Chunk(3).Select(c => new Lab(c[0], c[1], c[2]))];
    }

    private static string HueOf(Lab lab) => lab.Chroma < GreyBelow ? "Greys"
        : Hues[(int)(((Math.Atan2(lab.B, lab.A) * 180 / Math.PI) + 360) % 360 / 60) % 6];

    public sealed record Request(int One, int Other);

    /// <param name="First">Volume of the first, cubic L*a*b*.</param>
    /// <param name="Second">Volume of the second.</param>
    /// <param name="Shared">Volume of what both reach.</param>
    /// <param name="Mean">The same numbers printed through both: how far apart on average, dE00.</param>
    /// <param name="P95">95 of 100 lie nearer.</param>
    /// <param name="Max">The farthest.</param>
    /// <param name="Map">By hue and lightness.</param>
    /// <param name="FirstSlices">Slices of the first.</param>
    /// <param name="SecondSlices">Slices of the second.</param>
    public sealed record Done(
        double First, double Second, double Shared, double Mean, double P95, double Max, IReadOnlyList<Row> Map,
        IReadOnlyList<ShowGamut.Slice> FirstSlices, IReadOnlyList<ShowGamut.Slice> SecondSlices);

    /// <param name="Hue">Which colours, by the first profile.</param>
    /// <param name="Apart">Mean dE00 of the dark, the middle and the light ones; none where there are no such colours.</param>
    public sealed record Row(string Hue, IReadOnlyList<double?> Apart);

    public sealed record NoSuchPair() : Refusal("Choose two profiles of this room.");

    public sealed record OnlyThreeChannels() : Refusal("Gamuts are compared for RGB profiles whose files are here.");
}

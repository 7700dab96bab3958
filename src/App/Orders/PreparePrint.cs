using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Orders;

/// <summary>Makes the print-ready file of a print line, as long work. About: "print ORDER/LINE".</summary>
public sealed class PreparePrint(RoomStore room, FileShelf files, TimeProvider clock) : LongWork(room)
{
    private static readonly TimeSpan TellEvery = TimeSpan.FromSeconds(0.5);

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var ids = about.Split(' ')[^1].Split('/').Select(n => int.Parse(n, CultureInfo.InvariantCulture)).ToArray();
        await using var db = Room.Open();
        var line = await db.PrintLines.AsNoTracking().SingleAsync(l => l.Order == ids[0] && l.Line == ids[1], cancel);
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == line.Paper, cancel);
        var best = await FirstMadeWithAsync(db, line, cancel) ?? await ProfileForAsync(db, line.Paper, cancel);
        if (best is not var (profile, ppi))
        {
            return $"{paper.Name} has no trusted profile: nothing was prepared. Print and read a chart, then trust its profile.";
        }

        var recipe = Recipe(line, paper, ppi);
        var output = files.NewPath(".tif");
        var told = clock.GetTimestamp();
        var made = PrintPreparation.Run(
            files.PathOf(line.ImageHash), await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel), recipe, output,
            new Progress<double>(p =>
            {
                if (clock.GetElapsedTime(told) > TellEvery)
                {
                    told = clock.GetTimestamp();
                    _ = tell((int)(95 * p));
                }
            }),
            cancel);
        if (made.Value is not { } prepared)
        {
            return made.Fault!.Message;
        }

        var kept = await files.KeepMadeAsync(output, cancel);
        await using var change = Room.Open();
        var stored = await change.PrintLines.SingleAsync(l => l.Order == ids[0] && l.Line == ids[1], cancel);
        (stored.PreparedHash, stored.Recipe) = (kept.Hash, $"profile {profile.Number}; {recipe}");
        await change.SaveChangesAsync(cancel);
        return $"{prepared.Width} × {prepared.Height} pixels, 16-bit, in the colours of profile {profile.Number}. Print it without colour management in the driver, at 100 %.";
    }

    // A remake comes with the profile the first was made with, as long as that one still tells how the printer prints.
    private static async Task<(Profile Profile, int Ppi)?> FirstMadeWithAsync(RoomDb db, PrintLine line, CancellationToken cancel)
    {
        if (line is not { PreparedHash: null, Recipe: { } recipe } || !int.TryParse(recipe.Split(';')[0].Replace("profile ", "", StringComparison.Ordinal), NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            return null;
        }

        var found = await (
            from profile in db.Profiles.AsNoTracking()
            join condition in db.Conditions on profile.Condition equals condition.Code
            where profile.Number == number && condition.Paper == line.Paper && (profile.Standing == Standing.Trusted || profile.Standing == Standing.Due)
            select new { Profile = profile, condition.Ppi }).FirstOrDefaultAsync(cancel);
        return found is null ? null : (found.Profile, found.Ppi);
    }

    /// <summary>The newest profile of a paper that may be printed with, and its printer's resolution.</summary>
    /// <remarks>One that drifts only when there is no other: the run card stops what is printed with it until somebody decides.</remarks>
    internal static async Task<(Profile Profile, int Ppi)?> ProfileForAsync(RoomDb db, PaperCode paper, CancellationToken cancel)
    {
        var found = await (
            from profile in db.Profiles.AsNoTracking()
            join condition in db.Conditions on profile.Condition equals condition.Code
            where condition.Paper == paper && (profile.Standing == Standing.Trusted || profile.Standing == Standing.Due || profile.Standing == Standing.Drifting)
            orderby profile.Standing == Standing.Drifting, profile.Number descending
            select new { Profile = profile, condition.Ppi }).FirstOrDefaultAsync(cancel);
        return found is null ? null : (found.Profile, found.Ppi);
    }

    // Ink spreads on a dull coat and hides fine halos: it takes more sharpening.
    private static PrintRecipe Recipe(PrintLine line, Paper paper, int ppi) => new()
    {
        WidthMm = line.Width.Millimetres,
        HeightMm = line.Height.Millimetres,
        BorderMm = line.Border.Millimetres,
        WrapMm = line.Around.Millimetres,
        WrapAs = line.Edge switch
        {
            EdgeKind.StretchedWrap => WrapKind.Stretched,
            EdgeKind.PlainWrap => WrapKind.Plain,
            _ => WrapKind.Mirrored,
        },
        Ppi = ppi,
        Intent = (RenderingIntent)(int)line.Intent,
        BlackPointCompensation = line.BlackPointCompensation,
        HaloMm = paper.Coat is Coat.Dull ? 0.4 : 0.3,
        Sharpening = paper.Coat is Coat.Dull ? 0.7 : 0.4,
    };
}

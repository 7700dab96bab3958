using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Orders;

/// <summary>Makes the print-ready file of a print line, as long work. About: "print ORDER/LINE".</summary>
public sealed class PreparePrint(RoomStore room, FileShelf files, TimeProvider clock) : LongWork(room)
{
    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var ids = about.Split(' ')[^1].Split('/').Select(n => int.Parse(n, CultureInfo.InvariantCulture)).ToArray();
        await using var db = Room.Open();
        var line = await db.PrintLines.AsNoTracking().SingleAsync(l => l.Order == ids[0] && l.Line == ids[1], cancel);
        if (await ProfileOfAsync(db, line, cancel) is not { } profile)
        {
            var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == line.Paper, cancel);
            return $"{paper.Name} has no trusted profile: nothing was prepared. Print and read a chart, then trust its profile.";
        }

        var with = await PrintFiles.WithAsync(db, profile, cancel);
        var made = await new PrintFiles(Room, files, clock).MakeAsync(line, with, p => tell((int)(95 * p)), cancel);
        return made.Value is { Prepared: var prepared } done
            ? $"{prepared.Width} × {prepared.Height} pixels, {done.Bits}-bit, in the colours of profile {profile.Number}. Print it without colour management in the driver, at 100 %."
            : made.Refusal!.Message;
    }

    /// <summary>The profile a line is prepared with: the newest of its paper, or for a remake the one the first was made with.</summary>
    internal static async Task<Profile?> ProfileOfAsync(RoomDb db, PrintLine line, CancellationToken cancel) =>
        await FirstMadeWithAsync(db, line, cancel) ?? (await ProfileForAsync(db, line.Paper, cancel))?.Profile;

    // A remake comes with the profile the first was made with, as long as that one still tells how the printer prints.
    private static async Task<Profile?> FirstMadeWithAsync(RoomDb db, PrintLine line, CancellationToken cancel) =>
        line.PreparedHash is not null || RecipeText.ProfileOf(line) is not { } number ? null : await (
            from profile in db.Profiles.AsNoTracking()
            join condition in db.Conditions on profile.Condition equals condition.Code
            where profile.Number == number && condition.Paper == line.Paper && (profile.Standing == Standing.Trusted || profile.Standing == Standing.Due)
            select profile).FirstOrDefaultAsync(cancel);

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
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Orders;

/// <summary>A print line and all it would be prepared with now: the profile its file was made with, or the one it would be made with.</summary>
internal sealed record PrintNow(PrintLine Line, Paper Paper, PrintFiles.With With, PrintRecipe Recipe)
{
    /// <summary>None when there is no such print, or no profile to print it with.</summary>
    public static async Task<PrintNow?> LoadAsync(RoomDb db, int order, int line, CancellationToken cancel)
    {
        var print = await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == order && l.Line == line, cancel);
        if (print is null)
        {
            return null;
        }

        var made = print.PreparedHash is not null && RecipeText.ProfileOf(print) is { } number
            ? await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == number, cancel) : null;
        if ((made ?? await PreparePrint.ProfileOfAsync(db, print, cancel)) is not { } profile)
        {
            return null;
        }

        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == print.Paper, cancel);
        var with = await PrintFiles.WithAsync(db, profile, cancel);
        return new(print, paper, with, PrintFiles.Recipe(print, paper, with.Condition.Ppi, with.Printer.EightBits));
    }

    /// <summary>Order and line at the end of what long work is about: "... print 2211/1".</summary>
    public static (int Order, int Line) Of(string about)
    {
        var ids = about.Split(' ')[^1].Split('/');
        return (int.Parse(ids[0], CultureInfo.InvariantCulture), int.Parse(ids[1], CultureInfo.InvariantCulture));
    }

    public static string NoProfile => "This print has no trusted profile to be made with: nothing was made. Print and read a chart, then trust its profile.";
}

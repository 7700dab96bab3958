using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Orders;

/// <summary>Makes print-ready files of print lines, and says by which recipe.</summary>
internal sealed class PrintFiles(RoomStore room, FileShelf files, TimeProvider clock)
{
    private static readonly TimeSpan TellEvery = TimeSpan.FromSeconds(0.5);

    /// <summary>Makes the file of a line with a profile, and keeps it with the line.</summary>
    /// <param name="line">The line, not tracked.</param>
    /// <param name="with">The profile and the printer it is for.</param>
    /// <param name="tell">Told 0 to 1, now and then.</param>
    /// <param name="cancel">Stops it, leaving the line as it was.</param>
    public async Task<Outcome<Made>> MakeAsync(PrintLine line, With with, Func<double, Task> tell, CancellationToken cancel)
    {
        await using var db = room.Open();
        var paper = await db.Papers.AsNoTracking().SingleAsync(p => p.Code == line.Paper, cancel);
        var recipe = Recipe(line, paper, with.Condition.Ppi, with.Printer.EightBits);
        var output = files.NewPath(".tif");
        var made = PrintPreparation.Run(
            files.PathOf(line.ImageHash), await File.ReadAllBytesAsync(files.PathOf(with.Profile.FileHash), cancel), recipe, output, Told(tell), files.Disk, cancel);
        if (made.Value is not { } prepared)
        {
            return new CannotBePrepared(made.Fault!.Message);
        }

        var kept = await files.KeepMadeAsync(output, cancel);
        var stored = await db.PrintLines.SingleAsync(l => l.Order == line.Order && l.Line == line.Line, cancel);
        (stored.PreparedHash, stored.Recipe) = (kept.Hash, RecipeText.Of(with.Profile.Number, recipe));
        await db.SaveChangesAsync(cancel);
        return new Made(prepared, recipe.EightBits ? 8 : 16);
    }

    /// <summary>Tells at most twice a second.</summary>
    public Progress<double> Told(Func<double, Task> tell)
    {
        var told = clock.GetTimestamp();
        return new(p =>
        {
            if (clock.GetElapsedTime(told) > TellEvery)
            {
                told = clock.GetTimestamp();
                _ = tell(p);
            }
        });
    }

    /// <summary>The printing condition and printer that a profile is for.</summary>
    public static async Task<With> WithAsync(RoomDb db, Profile profile, CancellationToken cancel)
    {
        var condition = await db.Conditions.AsNoTracking().SingleAsync(c => c.Code == profile.Condition, cancel);
        return new(profile, condition, await db.Printers.AsNoTracking().SingleAsync(p => p.Code == condition.Printer, cancel));
    }

    // Ink spreads on a dull coat and hides fine halos: it takes more sharpening.
    public static PrintRecipe Recipe(PrintLine line, Paper paper, int ppi, bool eightBits) => new()
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
        EightBits = eightBits,
    };

    public sealed record With(Profile Profile, PrintingCondition Condition, Printer Printer);

    public sealed record Made(Prepared Prepared, int Bits);

    public sealed record CannotBePrepared(string Why) : Refusal(Why);
}

using System.Text;
using Goodsheet.App.Control;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;

namespace Goodsheet.App.Demo;

/// <summary>Reads a strip of each watched condition every other week, as its invented printer prints by then.</summary>
internal sealed class DemoStrips(DemoHand hand)
{
    private const int EveryDays = 14;

    // 24 patches of the demonstration's own chart: corners, ramps of each ink, greys, mixtures.
    private static readonly double[][] Strip = [.. ((int[][])
    [
        [6, 6, 6], [0, 6, 6], [6, 0, 6], [6, 6, 0], [0, 0, 6], [0, 6, 0], [6, 0, 0], [0, 0, 0], [2, 6, 6], [4, 6, 6], [6, 2, 6], [6, 4, 6],
        [6, 6, 2], [6, 6, 4], [1, 1, 1], [2, 2, 2], [3, 3, 3], [4, 4, 4], [5, 5, 5], [3, 3, 6], [3, 6, 3], [6, 3, 3], [2, 4, 5], [5, 4, 3],
    ]).Select(p => p.Select(v => v / 6.0).ToArray())];

    private readonly Random random = new(DemoRoom.Seed + 1); // of its own, so that the rest of the room stays as it was

    /// <summary>The strips of a day.</summary>
    public async Task OfDayAsync(DateOnly day, DateOnly today, CancellationToken cancel)
    {
        foreach (var condition in DemoCast.Conditions)
        {
            var (made, daysAgo) = (condition.DaysAgo, today.DayNumber - day.DayNumber);
            if (daysAgo < made && daysAgo >= LastStrip(condition) && (daysAgo - LastStrip(condition)) % EveryDays == 0)
            {
                hand.Clock.Set(day, 10.5);
                await TakeAsync(condition, PrinterDrift.None, cancel);
            }
        }
    }

    /// <summary>The evening before: one paper has turned warmer than its profile knows.</summary>
    public async Task YesterdayAsync(CancellationToken cancel)
    {
        var textured = DemoCast.Conditions.Single(c => c.Paper == "Dragon Textured 300");
        DemoHand.Must(await hand.The<NoteChange>().RunAsync(
            new(new(DemoCast.Keeper), await CodeOfAsync(textured, cancel), NoteChange.Part.PaperLot, "a new box, opened last week"), cancel));
        await TakeAsync(textured, new(PaperTint: 0.12), cancel);
    }

    // How many days ago its last quiet strip was read: one is overdue, one was never watched.
    private static int LastStrip(DemoCondition condition) => condition.Paper switch
    {
        "Teapot Matte 230" => 41,
        "Dragon Textured 300" => 15,
        "Nonesuch Gloss 260" => int.MaxValue,
        _ => 12,
    };

    private async Task TakeAsync(DemoCondition condition, PrinterDrift drift, CancellationToken cancel)
    {
        var printer = InventedPrinter.On(DemoCast.Paper(DemoCast.CodeOf(condition.Paper)).Optics, condition.Printer == DemoCast.Heron, drift: drift);
        var text = CgatsWriter.Write(InventedPrinter.Read(printer, Strip, random.Next()), "Goodsheet, invented", $"Strip of {condition.Paper}, invented for the demonstration");
        using var content = new MemoryStream(Encoding.UTF8.GetBytes(text));
        var kept = await hand.Files.KeepAsync(content, cancel);
        var code = await CodeOfAsync(condition, cancel);
        var profile = (await hand.The<ShowProfiles>().RunAsync(cancel)).First(l => l.Condition.Code == code).Profile.Number;
        DemoHand.Must(await hand.The<TakeStrip>().RunAsync(new(new(DemoCast.Keeper), kept.Hash, $"strip-{DemoCast.CodeOf(condition.Paper)}-invented.txt", profile), cancel));
    }

    private async Task<Room.Printers.ConditionCode> CodeOfAsync(DemoCondition condition, CancellationToken cancel) =>
        (await hand.The<ShowProfiles>().RunAsync(cancel)).First(
            l => l.Paper.Code == DemoCast.CodeOf(condition.Paper) && l.Condition.Printer == DemoCast.PrinterOf(condition.Printer)).Condition.Code;
}

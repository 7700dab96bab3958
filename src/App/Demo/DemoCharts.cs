using System.Text;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Demo;

/// <summary>Prints charts on the invented printers, reads them, and makes the room's profiles from them by the room's own maker.</summary>
internal static class DemoCharts
{
    private const int Levels = 7;
    private const int Greys = 15;
    private const int QuickGrid = 17; // so that the room opens soon

    public static async Task MakeProfileAsync(this DemoHand hand, DemoCondition condition, CancellationToken cancel)
    {
        var reading = await hand.ReadChartAsync(condition, PrinterDrift.None, cancel);
        var maker = hand.Work<MakeRoomProfile>();
        maker.Grid = QuickGrid;
        await maker.DoNowAsync($"reading {reading}", cancel);
    }

    /// <summary>Trusts the newest profile.</summary>
    public static async Task TrustAsync(this DemoHand hand, string why, CancellationToken cancel)
    {
        var newest = (await hand.The<ShowProfiles>().RunAsync(cancel)).Max(l => l.Profile.Number);
        DemoHand.Must(await hand.The<DecideProfile>().RunAsync(new(new(DemoCast.Keeper), newest, Standing.Trusted, why), cancel));
    }

    /// <summary>Brings in the chart of a condition, as its printer prints it by now.</summary>
    public static async Task<int> ReadChartAsync(this DemoHand hand, DemoCondition condition, PrinterDrift drift, CancellationToken cancel)
    {
        var printer = InventedPrinter.On(DemoCast.Paper(DemoCast.CodeOf(condition.Paper)).Optics, condition.Printer == DemoCast.Heron, drift: drift);
        var text = CgatsWriter.Write(
            InventedPrinter.Read(printer, Chart(), hand.Random.Next()), "Goodsheet, invented", $"{condition.Paper} on {condition.Printer}, invented for the demonstration");
        using var content = new MemoryStream(Encoding.UTF8.GetBytes(text));
        var kept = await hand.Files.KeepAsync(content, cancel);
        var done = DemoHand.Must(await hand.The<BringInReading>().RunAsync(
            new(new(DemoCast.Keeper), kept.Hash, $"{DemoCast.CodeOf(condition.Paper)}-invented.txt", DemoCast.CodeOf(condition.Paper), DemoCast.PrinterOf(condition.Printer), condition.MediaSetting), cancel));
        return done.Reading;
    }

    private static List<double[]> Chart()
    {
        var patches = new List<double[]>();
        for (var i = 0; i < Levels * Levels * Levels; i++)
        {
            patches.Add([i / (Levels * Levels) / (Levels - 1.0), i / Levels % Levels / (Levels - 1.0), i % Levels / (Levels - 1.0)]);
        }

        for (var i = 0; i < Greys; i++)
        {
            var grey = (i + 0.5) / Greys;
            patches.Add([grey, grey, grey]);
        }

        return patches;
    }
}

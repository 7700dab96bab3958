using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Orders;

/// <summary>What an order is told at once: stock and black. The rest of the findings have tests of their own.</summary>
public sealed class TakeOrderTest : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-order-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private FileShelf Files => new(Path.Combine(folder, "files"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    // Two prints of 380 by 253 mm lie on an A2 sheet (420 by 594 mm).
    [Theory]
    [InlineData(380, 253, 10, null)]
    [InlineData(380, 253, 11, "not enough paper")]
    [InlineData(500, 500, 1, "too large for the paper")]
    public async Task Stock_is_counted_in_copies(int width, int height, int copies, string? expected)
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 380, 253, 1));
        await press.StockAsync(FreshRoom.A2, 5);
        var findings = await TakeAsync(press, width, height, copies);
        Assert.Equal(expected, findings.SingleOrDefault(f => f.Kind is "not enough paper" or "too large for the paper")?.Kind);
    }

    [Theory]
    [InlineData(BlackInk.Matte, false)]
    [InlineData(BlackInk.Photo, true)]
    public async Task Another_black_in_the_printer_is_said_with_what_the_change_costs(BlackInk isIn, bool said)
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 380, 253, 1));
        await press.StockAsync(FreshRoom.A2, 5);
        await press.ChangeAsync(async db =>
        {
            (await db.Printers.SingleAsync(Cancel)).MinutesToMatte = 6;
            (await db.Loaded.SingleAsync(Cancel)).Black = isIn;
        });
        var finding = (await TakeAsync(press, 380, 253, 1)).SingleOrDefault(f => f.Kind == "another black");
        Assert.Equal(said, finding is not null);
        Assert.Equal(said, finding?.Help.Contains("6 minutes", StringComparison.Ordinal) ?? false);
    }

    private async Task<List<Finding>> TakeAsync(PressRoom press, int width, int height, int copies)
    {
        var picture = Files.NewPath(".tif");
        DrawnTiff.Write(picture, 300, 200, 3, 300, (_, row) => Array.Fill(row, (ushort)30_000));
        var kept = await Files.KeepMadeAsync(picture, Cancel);
        var taken = await new TakeOrder(press.Store, Files, press.Clock).RunAsync(
            new(CommandId.New(), PressRoom.Mira, "An invented gallery", press.Clock.GetUtcNow().AddDays(2), kept.Hash, "a.tif", "Low Water",
                Length.FromMillimetres(width), Length.FromMillimetres(height), Length.Zero, FreshRoom.Cotton, copies, Length.FromMillimetres(500)), Cancel);
        Assert.True(taken.Granted, taken.Refusal?.Message);
        await using var db = press.Store.Open();
        return await db.Findings.Where(f => f.Order == taken.Value.Order).ToListAsync(Cancel);
    }
}

using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Runs;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Runs;

/// <summary>A furnished room in which a run can be planned at once: a trusted profile, an order whose files are prepared, a lot.</summary>
public sealed class PressRoom(FreshRoom room) : IAsyncDisposable
{
    public const int Order = 2211;
    public const int Profile = 7;

    public static PersonName Mira { get; } = new("Mira");

    public static ConditionCode Condition { get; } = new("heron-test-cotton");

    public FakeTimeProvider Clock { get; } = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    public RoomStore Store => room.Store;

    public string Folder => room.Folder;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static async Task<PressRoom> OpenAsync(params (string Title, int Width, int Height, int Copies)[] prints)
    {
        var press = new PressRoom(await (await FreshRoom.InFileAsync()).FurnishedAsync());
        await using var db = press.Store.Open();
        var now = press.Clock.GetUtcNow();
        db.Conditions.Add(new() { Code = Condition, Printer = FreshRoom.Heron, Paper = FreshRoom.Cotton, MediaSetting = "Art, heavy", Ppi = 360, Black = BlackInk.Matte });
        db.Profiles.Add(new()
        {
            Number = Profile,
            Condition = Condition,
            Version = 2,
            Name = "Test Cotton on Heron",
            FileHash = "00",
            MadeAt = now,
            By = Mira,
            Standing = Standing.Trusted,
        });
        db.Clients.Add(new() { Number = 1, Name = "An invented gallery" });
        db.Orders.Add(new() { Number = Order, Client = 1, TakenAt = now, TakenBy = Mira, Promised = now.AddHours(3), State = OrderState.Approved });
        db.PrintLines.AddRange(prints.Select((p, i) => new PrintLine
        {
            Order = Order,
            Line = i + 1,
            Title = p.Title,
            ImageHash = "01",
            ImageName = "picture.tif",
            PixelsWide = 4000,
            PixelsHigh = 3000,
            Width = Length.FromMillimetres(p.Width),
            Height = Length.FromMillimetres(p.Height),
            Paper = FreshRoom.Cotton,
            Copies = p.Copies,
            PreparedHash = "02",
        }));
        await db.SaveChangesAsync(Cancel);
        return press;
    }

    /// <param name="format">The format.</param>
    /// <param name="quantity">Sheets, or mm of roll.</param>
    public async Task<LotCode> StockAsync(FormatCode format, long quantity) => (await new PutAway(Store, Clock).RunAsync(
        new(CommandId.New(), Mira, FreshRoom.Cotton, format, quantity, new(2028, 1, 31), Place: "drawer 2"), Cancel)).Value!.Lot;

    public Task<Outcome<PlanRun.Done>> PlanAsync(LotCode lot) =>
        new PlanRun(Store, Clock).RunAsync(new(CommandId.New(), Mira, Order, lot), Cancel);

    public async Task<int> PlannedAsync(LotCode lot) => (await PlanAsync(lot)).Value!.Run;

    public Task<Outcome<StartRun.Done>> StartAsync(int run) =>
        new StartRun(Store, Clock).RunAsync(new(CommandId.New(), Mira, run, BlackIsIn: true), Cancel);

    public async Task ChangeAsync(Func<RoomDb, Task> step)
    {
        await using var db = Store.Open();
        await step(db);
        await db.SaveChangesAsync(Cancel);
    }

    public async Task<LotBalance> BalanceAsync(LotCode lot)
    {
        await using var db = Store.Open();
        return await db.BalanceAsync(lot, Cancel);
    }

    public ValueTask DisposeAsync() => room.DisposeAsync();
}

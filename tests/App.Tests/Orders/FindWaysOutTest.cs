using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Shelf;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Tests.Orders;

/// <summary>A print is promised today and its paper is not here: each way out with its cost, its time and what it leaves to be bought.</summary>
public sealed class FindWaysOutTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Larger_paper_is_cut_by_the_exact_pattern_and_every_suppliers_way_is_reckoned()
    {
        // 16 prints of 200 x 280 mm want 16 sheets of A4; none is here, but five of A2, each of which gives four.
        await using var press = await PressRoom.OpenAsync(("Low Water", 200, 280, 16));
        await press.StockAsync(FreshRoom.A2, 5);
        await press.ChangeAsync(async db =>
        {
            db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A4, PackSize = 50 });
            db.Suppliers.Add(new() { Code = new("invented"), Name = "Invented Papers", TimeZone = "Europe/London", Carriage = 6 });
            db.Dispatches.Add(new() { Supplier = new("invented"), Name = "next day", CutOff = new(14, 30), LeadDays = 1 });
            db.Prices.Add(new() { Supplier = new("invented"), Paper = FreshRoom.Cotton, Format = FreshRoom.A4, From = new(2026, 1, 1), PackSize = 50, Price = 40 });
            db.Prices.Add(new() { Supplier = new("invented"), Paper = FreshRoom.Cotton, Format = FreshRoom.A2, From = new(2026, 1, 1), PackSize = 25, Price = 100 });
            db.Rates.Add(new() { Number = 1, From = new(2026, 1, 1), Currency = "groats", PersonPerMinute = 0.5m });
            await db.Orders.ExecuteUpdateAsync(o => o.SetProperty(x => x.Promised, press.Clock.GetUtcNow().AddHours(7)), Cancel);
        });
        var page = (await Ways(press).RunAsync(PressRoom.Order, Cancel))!;
        var print = Assert.Single(page.Prints);
        Assert.Equal((FreshRoom.A4, 16, 0), (print.Format!.Code, print.Wants, print.Has));
        Assert.True(await Ways(press).IsShortAsync(PressRoom.Order, Cancel));

        var cut = print.Ways[0];
        Assert.Equal((WayKind.CutDown, "Cut 4 sheets of A2 into A4"), (cut.Kind, cut.What));
        Assert.True(cut.InTime(page.Order.Promised));
        Assert.Contains("4 pieces from each sheet", cut.How, StringComparison.Ordinal);
        Assert.Contains("1 sheet of A2 stay", cut.Restock, StringComparison.Ordinal);

        var bought = Assert.Single(print.Ways, w => w.Kind is WayKind.OtherSupplier);
        Assert.Equal(46m, bought.Cost); // a pack of 50 for 40, and 6 of carriage
        Assert.False(bought.InTime(page.Order.Promised));
        Assert.Contains("50 sheets that come 34 go on the shelf", bought.Restock, StringComparison.Ordinal);
        var told = Assert.Single(print.Ways, w => w.Kind is WayKind.TellClient);
        Assert.Equal(bought.Ready, told.Ready);
    }

    // By hand and worked out: Monday 2 March 2026, 16:00; the room is open from 8:30 to 17:30, Monday to Friday.
    // 16 prints of A4 feed one by one: 4 minutes to change paper, 16 of 1.5 minutes, and 60 x 16 x 0.056 m2 / rate of printing.
    [Fact]
    public async Task What_is_ready_is_dry_and_the_room_is_open_and_feeding_by_hand_rests_while_it_is_closed()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 200, 280, 16));
        await press.StockAsync(FreshRoom.A2, 5);
        await press.ChangeAsync(async db =>
        {
            db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A4, PackSize = 50 });
            (await db.Papers.SingleAsync(p => p.Code == FreshRoom.Cotton, Cancel)).DryingHours = 4;
            (await db.Printers.SingleAsync(Cancel)).SquareMetresPerHour = 0.896; // an hour for 16 prints of 0.056 m2
        });
        press.Clock.Advance(TimeSpan.FromHours(7)); // 16:00, and 4 cuts of 4 sheets: about 16 minutes and more at the trimmer

        var cut = (await Ways(press).RunAsync(PressRoom.Order, Cancel))!.Prints[0].Ways.Single(w => w.Kind is WayKind.CutDown);
        Assert.Equal(new DateTimeOffset(2026, 3, 3, 13, 0, 0, TimeSpan.Zero), cut.Ready!.Value, TimeSpan.FromHours(1)); // it rests over night, goes on at 8:30, and dries 4 hours
        var room = TimeZoneInfo.ConvertTime(cut.Ready.Value, press.Clock.LocalTimeZone);
        Assert.InRange(TimeOnly.FromDateTime(room.DateTime), new TimeOnly(8, 30), new TimeOnly(17, 30));

        press.Clock.Advance(TimeSpan.FromDays(4) - TimeSpan.FromHours(2)); // Friday 14:00: printed by half past three, dry in the evening
        var friday = (await Ways(press).RunAsync(PressRoom.Order, Cancel))!.Prints[0].Ways.Single(w => w.Kind is WayKind.CutDown);
        Assert.Equal(new DateTimeOffset(2026, 3, 9, 8, 30, 0, TimeSpan.Zero), friday.Ready); // on Monday
    }

    [Fact]
    public async Task Only_papers_with_a_profile_are_proposed_the_same_class_first_and_a_drifting_one_last()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 200, 280, 2));
        await press.ChangeAsync(async db =>
        {
            db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A4, PackSize = 50 });
            var cotton = (await db.Papers.SingleAsync(p => p.Code == FreshRoom.Cotton, Cancel)).Class;
            var number = 20;
            var other = Enum.GetValues<PaperClass>().First(c => c != cotton);
            Add("alike", cotton, Standing.Due);
            Add("another", other, Standing.Trusted);
            Add("astray", cotton, Standing.Drifting);
            Add("unknown", cotton, null);
            Add("untried", cotton, Standing.New);
            await db.SaveChangesAsync(Cancel);

            void Add(string code, PaperClass its, Standing? standing)
            {
                db.Papers.Add(new() { Code = new(code), Name = code, Class = its, Base = PaperBase.Cotton, Coat = Coat.Dull, Grammage = 300, Feed = Feed.Stack, LineUp = LineUp.In });
                db.Items.Add(new() { Paper = new(code), Format = FreshRoom.A4, PackSize = 50 });
                db.Conditions.Add(new() { Code = new($"heron-{code}"), Printer = FreshRoom.Heron, Paper = new(code), MediaSetting = "Art", Ppi = 360, Black = BlackInk.Matte });
                if (standing is { } known)
                {
                    db.Profiles.Add(new() { Number = ++number, Condition = new($"heron-{code}"), Version = 1, Name = code, FileHash = "00", MadeAt = press.Clock.GetUtcNow(), By = PressRoom.Mira, Standing = known });
                }
            }
        });
        foreach (var code in (string[])["alike", "another", "astray", "unknown", "untried"])
        {
            await new PutAway(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, new(code), FreshRoom.A4, 10, new(2028, 1, 31), Place: "drawer 2"), Cancel);
        }

        var print = Assert.Single((await Ways(press).RunAsync(PressRoom.Order, Cancel))!.Prints);
        Assert.Equal(Standing.Trusted, print.Profile!.Standing);
        var papers = print.Ways.Where(w => w.Kind is WayKind.OtherPaper).ToList();
        Assert.Equal(["Print it on alike, A4", "Print it on another, A4", "Print it on astray, A4"], papers.Select(w => w.What));
        Assert.Equal([true, true, false], papers.Select(w => w.WhyNot is null));
        Assert.Contains("is drifting", papers[2].WhyNot, StringComparison.Ordinal);
        Assert.EndsWith("/proof?paper=alike", papers[0].Link, StringComparison.Ordinal);
        Assert.Equal(["unknown", "untried"], print.Unproved);

        await press.ChangeAsync(async db => (await db.Profiles.SingleAsync(p => p.Number == PressRoom.Profile, Cancel)).Standing = Standing.New);
        var without = Assert.Single((await Ways(press).RunAsync(PressRoom.Order, Cancel))!.Prints);
        Assert.Null(without.Profile);
        Assert.Contains("has no profile to print with, so no day can be said", without.Ways.Single(w => w.Kind is WayKind.TellClient).How, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_does_not_suffice_is_said_not_to_and_the_client_is_told()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 200, 280, 16));
        await press.ChangeAsync(db =>
        {
            db.Items.Add(new() { Paper = FreshRoom.Cotton, Format = FreshRoom.A4, PackSize = 50 });
            return Task.CompletedTask;
        });
        await press.StockAsync(FreshRoom.A2, 3);
        var ways = Assert.Single((await Ways(press).RunAsync(PressRoom.Order, Cancel))!.Prints).Ways;
        Assert.Equal([WayKind.TellClient, WayKind.CutDown], ways.Select(w => w.Kind));
        Assert.Equal("Only 3 of A2 are here.", ways[1].WhyNot);
        Assert.Null(ways[0].Ready);
        Assert.Contains("no day can be said", ways[0].How, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_order_with_paper_enough_has_no_need_of_a_way_out()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 400, 500, 2));
        await press.StockAsync(FreshRoom.A2, 2);
        Assert.False(await Ways(press).IsShortAsync(PressRoom.Order, Cancel));
        Assert.Empty((await Ways(press).RunAsync(PressRoom.Order, Cancel))!.Prints);
        Assert.Null(await Ways(press).RunAsync(9_999, Cancel));
        Assert.False(await Ways(press).IsShortAsync(9_999, Cancel));
    }

    private static FindWaysOut Ways(PressRoom press)
    {
        var files = new FileShelf(Path.Combine(Path.GetTempPath(), "goodsheet-no-such-files"));
        return new(press.Store, files, new(files), press.Clock);
    }
}

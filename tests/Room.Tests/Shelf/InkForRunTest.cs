using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.Room.Tests.Shelf;

/// <summary>Ink for a run, reckoned: three even shares in the printer, or a spare that is in date.</summary>
public sealed class InkForRunTest
{
    private static readonly PrinterCode Heron = new("heron");
    private static readonly DateOnly Today = new(2026, 3, 2);
    private static readonly DateTimeOffset Then = new(2026, 3, 1, 9, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(20, true)] // of 40 ml each of two channels has a share of 20: three shares are the 60 that are left of 80
    [InlineData(20.1, false)]
    public void A_channel_is_safe_with_three_shares_of_the_runs_ink_in_the_printer(double sharePrinted, bool safe)
    {
        var ink = InkForRun.Of(40, [Ink("cyan", spare: 0), Ink("yellow", spare: 0)], _ => 2 * sharePrinted, Today);
        Assert.Equal(safe, ink.IsThere);
        Assert.All(ink.Channels, c => Assert.Equal((20, 80 - sharePrinted), (c.Share, c.InPrinter!.Value)));
    }

    [Fact]
    public void A_spare_makes_it_safe_and_one_that_is_out_of_date_does_not()
    {
        Assert.True(InkForRun.Of(400, [Ink("cyan", spare: 1)], _ => 79, Today).IsThere);
        Assert.False(InkForRun.Of(400, [Ink("cyan", spare: 1, best: Today.AddDays(-1))], _ => 79, Today).IsThere);
        Assert.True(InkForRun.Of(400, [Ink("cyan", spare: 1, best: Today)], _ => 79, Today).IsThere);
    }

    [Fact]
    public void What_is_not_known_to_be_in_the_printer_does_not_count()
    {
        var never = ConsumableStock.Of(Cartridge("cyan"), [], []);
        var channel = Assert.Single(InkForRun.Of(1, [never], _ => 0, Today).Channels);
        Assert.Equal((null, false), (channel.InPrinter, channel.Enough));
    }

    private static Consumable Cartridge(string channel) =>
        new() { Code = new(channel), Name = channel, Kind = ConsumableKind.Ink, Printer = Heron, Channel = channel, Millilitres = 80 };

    private static ConsumableStock Ink(string channel, long spare, DateOnly? best = null)
    {
        var wish = new Wish(CommandId.New(), new PersonName("Mira"), Then);
        var lot = new ConsumableLot { Consumable = new(channel), Number = 1, Received = Today, BestBefore = best };
        var empty = ConsumableStock.Of(Cartridge(channel), [lot], []);
        var came = empty.PutAway(1, spare + 1, wish);
        var there = ConsumableStock.Of(Cartridge(channel), [lot], [came]);
        return ConsumableStock.Of(Cartridge(channel), [lot], [came, .. there.Take(1, Today, pastItsDate: true, wish).Value!]);
    }
}

using Goodsheet.App.Shelf;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Demo;

/// <summary>The demonstration's inks and all else that is used up beside paper: most in order, one run out, one to be used first. All invented.</summary>
internal sealed class DemoInks(DemoHand hand)
{
    private const decimal InkPrice = 36; // of 120 ml, in the demonstration's own money

    private static readonly string[] HeronChannels = ["cyan", "grey", "light cyan", "light grey", "light magenta", "magenta", "matte black", "photo black", "yellow"];
    private static readonly string[] WrenChannels = ["black", "cyan", "magenta", "yellow"];

    public async Task WriteAsync(DateOnly today, CancellationToken cancel)
    {
        foreach (var (name, channels) in ((string, string[])[])[(DemoCast.Heron, HeronChannels), (DemoCast.Wren, WrenChannels)])
        {
            foreach (var channel in channels)
            {
                var spare = channel is "light grey" ? 0 : channel is "matte black" ? 2 : 1;
                var ink = await KeepAsync($"{name} {channel}", ConsumableKind.Ink, DemoCast.PrinterOf(name), channel, 120, channel is "matte black" ? 1 : 0, "ink shelf", InkPrice, cancel);
                await PutAwayAsync(ink, 1 + spare, today.AddDays(channel is "yellow" ? 24 : 420), cancel);
                DemoHand.Must(await hand.The<MoveConsumable>().RunAsync(new(hand.Command(), new(DemoCast.Keeper), ink, MoveConsumable.Doing.Take, 1), cancel));
            }
        }

        var tank = await KeepAsync("Heron waste tank", ConsumableKind.WasteTank, DemoCast.PrinterOf(DemoCast.Heron), "", 0, 0, "ink shelf", 14, cancel);
        await PutAwayAsync(tank, 1, null, cancel);
        foreach (var (name, kind, pieces, low) in ((string, ConsumableKind, long, long)[])
            [("Trimmer blades", ConsumableKind.Blade, 4, 2), ("Matte spray coat", ConsumableKind.Coat, 2, 2), ("Cotton gloves, pairs", ConsumableKind.Gloves, 11, 4)])
        {
            await PutAwayAsync(await KeepAsync(name, kind, null, "", 0, low, "cutting table", null, cancel), pieces, kind is ConsumableKind.Coat ? today.AddDays(300) : null, cancel);
        }
    }

    private async Task<ConsumableCode> KeepAsync(
        string name, ConsumableKind kind, PrinterCode? printer, string channel, double ml, long low, string place, decimal? price, CancellationToken cancel) =>
        DemoHand.Must(await hand.The<KeepConsumable>().RunAsync(
            new(null, name, kind, printer, channel, ml, low, place, price is null ? null : new(Slug.Of(DemoCast.Sundry)), price), cancel)).Consumable;

    private async Task PutAwayAsync(ConsumableCode code, long pieces, DateOnly? best, CancellationToken cancel) =>
        DemoHand.Must(await hand.The<MoveConsumable>().RunAsync(new(hand.Command(), new(DemoCast.Keeper), code, MoveConsumable.Doing.PutAway, pieces, best), cancel));
}

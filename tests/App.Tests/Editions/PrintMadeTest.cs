using Goodsheet.App.Editions;
using Goodsheet.App.Runs;
using Goodsheet.App.Tests.Runs;
using Goodsheet.Room;
using Goodsheet.Room.Editions;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Editions;

public sealed class PrintMadeTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_certificate_is_filled_from_the_print_as_it_was_made()
    {
        await using var press = await PressRoom.OpenAsync(("Low Water", 300, 200, 2));
        await press.ChangeAsync(async db =>
        {
            var line = (await db.PrintLines.FindAsync([PressRoom.Order, 1], Cancel))!;
            (line.Border, line.Edge, line.Around) = (Length.FromMillimetres(15), EdgeKind.Bleed, Length.FromMillimetres(3));
        });
        var show = new ShowPrintMade(press.Store, press.Clock);
        Assert.Null(await show.RunAsync(PressRoom.Order, 1, Cancel)); // none is good yet
        Assert.Null(await show.RunAsync(PressRoom.Order, 9, Cancel));

        var run = await press.PlannedAsync(await press.StockAsync(FreshRoom.A2, 5));
        Assert.True((await press.StartAsync(run)).Granted);
        press.Clock.Advance(TimeSpan.FromDays(1));
        Assert.True((await new RecordRun(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, run, []), Cancel)).Granted);
        press.Clock.Advance(TimeSpan.FromDays(9));
        var made = (await show.RunAsync(PressRoom.Order, 1, Cancel))!;
        Assert.Equal(
            new(PressRoom.Order, 1, "Low Water", Mm(300), Mm(200), Mm(330), Mm(230), FreshRoom.Cotton, "Pigment, matte black", new(2026, 3, 3), run, 2, 0, null), made);

        var edition = (await new OpenEdition(press.Store, press.Clock).RunAsync(new(CommandId.New(), PressRoom.Mira, "Low Water", "A. Nobody", 2026, 5, 0, 0, 0, true), Cancel)).Value!.Edition;
        var issue = new IssuePrint.Request(CommandId.New(), PressRoom.Mira, edition, Series.Numbered, null, made.ImageWidth, made.ImageHeight, made.SheetWidth, made.SheetHeight, made.Paper, made.Ink, made.On!.Value, made.Run);
        Assert.IsType<IssuePrint.NotAPrint>((await new IssuePrint(press.Store, press.Clock).RunAsync(issue with { Ink = " " }, Cancel)).Refusal);
        Assert.True((await new IssuePrint(press.Store, press.Clock).RunAsync(issue with { Command = CommandId.New() }, Cancel)).Granted);
        Assert.Equal(made with { Numbered = 1, Edition = edition }, await show.RunAsync(PressRoom.Order, 1, Cancel));
    }

    private static Length Mm(int mm) => Length.FromMillimetres(mm);
}

using Goodsheet.App.Runs;
using Goodsheet.Imaging;

namespace Goodsheet.App.Printing;

/// <summary>A run's layout as files for the printer: one for sheets that are alike.</summary>
internal static class SheetPlans
{
    private const double LineMm = 0.15;
    private const double TickMm = 3;
    private const double ClearMm = 1;
    private const double NoDifference = 0.01;

    /// <param name="card">The run.</param>
    /// <param name="pathOf">Where the prepared file of a print line is.</param>
    /// <param name="day">Written on the waste with the rest.</param>
    public static IEnumerable<(int Number, int Copies, SheetPlan Plan)> Of(RunCard card, Func<int, int, string> pathOf, DateOnly day)
    {
        foreach (var group in card.Layout.Groups())
        {
            var sheet = group.Sheet;
            // What the printer cannot reach is not in the file: its driver puts the file inside its own margins.
            var usual = card.Layout.IsRoll ? 0 : card.Printer.Margin.Millimetres;
            var edges = card.Layout.Edges ?? new(usual, usual, usual, usual);
            var prints = sheet.Prints.Select(p =>
            {
                var line = card.Prints.Single(c => c.Run.Order == p.Order && c.Run.Line == p.Line).Line;
                return new LaidPrint(pathOf(p.Order, p.Line), p.At.X - edges.Left, p.At.Y - edges.Lead, Math.Abs(p.At.Width - line.FullWidth.Millimetres) > NoDifference);
            });
            var says = FormattableString.Invariant($"Run {card.Run.Number} sheet {Sheets(group.Numbers)} - {card.Paper.Name} lot {card.Lot.Code} - profile {card.Profile.Number} - {day:yyyy-MM-dd}");
            yield return (group.Numbers[0], group.Numbers.Count, new(
                sheet.Width - edges.Left - edges.Right, sheet.Height - edges.Lead - edges.Tail, card.Condition.Ppi, [.. prints],
                [.. Ticks(sheet).Concat(JobLine(sheet, says)).Select(m => m with { XMm = m.XMm - edges.Left, YMm = m.YMm - edges.Lead })],
                card.Printer.EightBits));
        }
    }

    private static string Sheets(IReadOnlyList<int> numbers) => numbers is [var one] ? $"{one}" : $"{numbers[0]}-{numbers[^1]}";

    // Both ends of each cut, where no print lies.
    private static IEnumerable<SheetMark> Ticks(RunLayout.OneSheet sheet) => sheet.Cuts.SelectMany(c => c.Along
        ? new SheetMark[] { new(c.X, c.Y, LineMm, TickMm), new(c.X, c.Y + c.Length - TickMm, LineMm, TickMm) }
        : [new(c.X, c.Y, TickMm, LineMm), new(c.X + c.Length - TickMm, c.Y, TickMm, LineMm)]);

    // On the smallest waste that holds it: a large leftover is kept clean for another print.
    private static IEnumerable<SheetMark> JobLine(RunLayout.OneSheet sheet, string says)
    {
        var (width, height) = (DotText.WidthMm(says) + (2 * ClearMm), DotText.LineMm() + ClearMm);
        var free = sheet.Offcuts.Where(o => o.Width >= width && o.Height >= height).OrderBy(o => o.Width * o.Height).Take(1);
        return free.SelectMany(at => DotText.Marks(says, at.X + ClearMm, at.Y + ClearMm));
    }
}

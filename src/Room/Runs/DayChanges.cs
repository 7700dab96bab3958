using Goodsheet.Room.Papers;

namespace Goodsheet.Room.Runs;

/// <summary>What changing black and paper between any two runs costs on each printer, in the room's money.</summary>
internal sealed class DayChanges
{
    /// <summary>In place of a run: how a printer stood before its first.</summary>
    public const int Morning = -1;

    private readonly int[] kind;
    private readonly double[][,] cost; // by printer, from kind to kind; the last row is the morning

    public DayChanges(DayWork work)
    {
        var kinds = work.Runs.Select(r => (r.Paper, r.Black)).Distinct().ToList();
        kind = [.. work.Runs.Select(r => kinds.IndexOf((r.Paper, r.Black)))];
        cost = [.. work.Printers.Select(p => Table(p, [.. kinds], work.Rules.Prices))];
    }

    public double Between(int lane, int before, int run)
    {
        var table = cost[lane];
        return table[before == Morning ? table.GetLength(1) : kind[before], kind[run]];
    }

    private static double[,] Table(PrinterDay printer, (string Paper, BlackInk Black)[] kinds, PlanPrices prices)
    {
        var table = new double[kinds.Length + 1, kinds.Length];
        for (var to = 0; to < kinds.Length; to++)
        {
            for (var from = 0; from <= kinds.Length; from++)
            {
                var (paper, black) = from == kinds.Length ? (printer.Paper, printer.Black) : kinds[from];
                var (minutes, ml) = printer.Change(black, kinds[to].Black);
                minutes += paper == kinds[to].Paper ? 0 : printer.MinutesPerPaperChange;
                table[from, to] = (minutes * prices.PerMinute) + (ml * prices.PerMl);
            }
        }

        return table;
    }
}

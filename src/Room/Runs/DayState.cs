using System.Runtime.InteropServices;
using Goodsheet.Room.Papers;

namespace Goodsheet.Room.Runs;

/// <summary>How a day stands between two runs while it is given its times: printers, people and drying table.</summary>
internal sealed class DayState(DayWork work)
{
    public double[] Free { get; } = new double[work.Printers.Count];

    /// <summary>When each person who feeds has their hands free.</summary>
    public double[] Hands { get; } = new double[Math.Max(1, work.Rules.People)];

    public BlackInk[] Black { get; } = new BlackInk[work.Printers.Count];

    public string?[] Paper { get; } = new string?[work.Printers.Count];

    /// <summary>How many runs of each lane are served.</summary>
    public int[] At { get; } = new int[work.Printers.Count];

    /// <summary>When each run ended, infinity while it is not served; empty when nothing waits for another.</summary>
    public double[] Ended { get; } = work.Runs.Any(r => r.After.Count > 0) ? new double[work.Runs.Count] : [];

    public List<(double From, double Until, int Places)> Drying { get; } = [];

    public double Cost { get; set; }

    /// <summary>What the runs that are not served yet will cost at the least.</summary>
    public double Rest { get; set; }

    public void Begin(PrinterDay[] printers, DayRules rules, double rest)
    {
        (Cost, Rest) = (0, rest);
        Drying.Clear();
        foreach (var (until, places) in rules.Drying)
        {
            Drying.Add((0, until, places));
        }

        Array.Clear(Hands);
        Array.Fill(Ended, double.PositiveInfinity);
        for (var i = 0; i < Free.Length; i++)
        {
            (Free[i], Black[i], Paper[i], At[i]) = (printers[i].FreeAt, printers[i].Black, printers[i].Paper, 0);
        }
    }

    public void CopyFrom(DayState other)
    {
        (Cost, Rest) = (other.Cost, other.Rest);
        other.Free.CopyTo(Free, 0);
        other.Hands.CopyTo(Hands, 0);
        other.Ended.CopyTo(Ended, 0);
        other.Black.CopyTo(Black, 0);
        other.Paper.CopyTo(Paper, 0);
        other.At.CopyTo(At, 0);
        CollectionsMarshal.SetCount(Drying, other.Drying.Count);
        CollectionsMarshal.AsSpan(other.Drying).CopyTo(CollectionsMarshal.AsSpan(Drying));
    }

    /// <summary>The printer that is free first is served first, so what is dry by then is in nobody's way again.</summary>
    public void TakeDown(double now)
    {
        for (var i = Drying.Count - 1; i >= 0; i--)
        {
            if (Drying[i].Until <= now)
            {
                Drying[i] = Drying[^1];
                Drying.RemoveAt(Drying.Count - 1);
            }
        }
    }
}

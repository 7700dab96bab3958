using System.Globalization;
using Goodsheet.App.Shelf;
using Goodsheet.Room.Papers;

namespace Goodsheet.Web.Shelf;

/// <summary>The shelf: papers by formats, with the lots behind each number.</summary>
public sealed partial class ShelfPage
{
    private const int SoonDays = 60;

    private ShowShelf.Page? shelf;
    private List<Format> formats = [];

    private string Says => shelf switch
    {
        { Lots.Count: 0 } => "Nothing lies here yet.",
        { } s when s.Lots.Count(l => !l.IsForClients(s.Today)) is var n and > 0 =>
            $"{n} {(n == 1 ? "lot is" : "lots are")} not for clients any more: use {(n == 1 ? "it" : "them")} for strips and tests.",
        _ => "Every lot on it may go to a client.",
    };

    protected override async Task OnInitializedAsync()
    {
        shelf = await ShowShelf.RunAsync(new());
        formats = [.. shelf.Formats.Where(f => shelf.Items.Any(i => i.Format == f.Code))];
    }

    private List<ShelfLines.Line> Lots(Paper paper, Format format) =>
        [.. shelf!.Lots.Where(l => l.Paper == paper.Code && l.Format == format.Code).OrderBy(l => l.GoodUntil ?? DateOnly.MaxValue)];

    private static string Amount(IEnumerable<ShelfLines.Line> lots, Format format) => lots.Sum(l => l.OnShelf) is var sum && format.IsRoll
        ? (sum / 1000.0).ToString("0.#", CultureInfo.CurrentCulture) : sum.ToString(CultureInfo.CurrentCulture);

    private bool IsLow(Paper paper, Format format, IEnumerable<ShelfLines.Line> lots) =>
        shelf!.Items.SingleOrDefault(i => i.Paper == paper.Code && i.Format == format.Code) is { } item
        && lots.Where(l => l.IsForClients(shelf.Today)).Sum(l => l.OnShelf) < item.Reserve;

    // How far the bar reaches, in days.
    private const int Longest = 40;

    private (string Style, bool Low, string Says)? Bar(Paper paper, Format format)
    {
        var code = new ItemCode(paper.Code, format.Code);
        if (shelf!.DaysLeft(code) is not { } days)
        {
            return null;
        }

        var reserve = (shelf.Items.SingleOrDefault(i => i.Code == code)?.Reserve ?? 0) / shelf.PerDay[code];
        return ($"--v:{Share(days)}{(reserve > 0 ? $";--r:{Share(Math.Min(Longest, reserve))}" : "")}", days < reserve, days > Longest ? $"over {Longest} days" : $"{days:0} {(days is >= 0.5 and < 1.5 ? "day" : "days")}");

        static string Share(double days) => Math.Min(1.5, days / Longest).ToString("0.##", CultureInfo.InvariantCulture);
    }
}

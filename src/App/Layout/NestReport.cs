using System.Text.Json;
using Goodsheet.Room.Layout;

namespace Goodsheet.App.Layout;

/// <summary>A finished layout as it is exchanged: lengths in mm, places from the left and the leading edge.</summary>
public sealed record NestReport(
    string Form, string Made, int Seed, NestReport.Paper Stock, double BoundMm, int BoundSheets, bool Best, double UsedPercent,
    IReadOnlyList<NestReport.OneSheet> Sheets)
{
    public const string ThisForm = "goodsheet layout 1";

    private const double PerMm = 1000;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public static NestReport Of(Nest nest, int seed, DateTimeOffset made)
    {
        var area = nest.Sheets.Sum(s => (double)s.Width * s.Height);
        var used = nest.Sheets.SelectMany(s => s.Placements).Sum(p => (double)p.Place.Size);
        return new(
            ThisForm, made.ToString("O"), seed,
            new(nest.Stock.IsRoll, Mm(nest.Stock.Width.Micrometres), nest.Stock.Height?.Millimetres, nest.Stock.Gutter.Millimetres),
            nest.Stock.IsRoll ? Mm(nest.Bound) : 0, nest.Stock.IsRoll ? 1 : (int)nest.Bound, nest.IsBest, Math.Round(100 * used / area, 2),
            [.. nest.Sheets.Select(s => Sheet(nest, s))]);
    }

    public string ToJson() => JsonSerializer.Serialize(this, Json);

    private static OneSheet Sheet(Nest nest, CutSheet sheet) => new(
        Mm(sheet.Width), Mm(sheet.Height),
        [.. sheet.Placements.Select(p => new Placed(nest.Pieces[p.Piece].Name, At(p.Place), p.Turned))],
        [.. CutList.Of(nest.Stock, sheet).Select(c => new Cut(
            c.Number, c.Of.Number, c.Direction is CutDirection.Along ? "along" : "across", Mm(c.Stop), Mm(c.Knife), c.Near.Number, c.Far.Number))],
        [.. CutList.Offcuts(nest.Stock, sheet).Select(At)]);

    private static Rectangle At(Area a) => new(Mm(a.X), Mm(a.Y), Mm(a.Width), Mm(a.Height));

    private static double Mm(long micrometres) => micrometres / PerMm;

    public sealed record Paper(bool Roll, double WidthMm, double? HeightMm, double GutterMm);

    public sealed record OneSheet(
        double WidthMm, double HeightMm, IReadOnlyList<Placed> Pieces, IReadOnlyList<Cut> Cuts, IReadOnlyList<Rectangle> Offcuts);

    public sealed record Placed(string Name, Rectangle At, bool Turned);

    /// <summary>One cut. Part 0 is the whole sheet; each cut gives two new parts.</summary>
    /// <param name="StopMm">From the near edge of the part on the trimmer.</param>
    /// <param name="KnifeMm">Clearance to cut off the far part after it.</param>
    public sealed record Cut(int Number, int Part, string Direction, double StopMm, double KnifeMm, int NearPart, int FarPart);

    public sealed record Rectangle(double XMm, double YMm, double WidthMm, double HeightMm);
}

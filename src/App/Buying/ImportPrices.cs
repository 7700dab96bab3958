using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Buying;

/// <summary>Takes a supplier's price list in as CSV: all of it, or none and a report of every line that is wrong.</summary>
public sealed class ImportPrices(RoomStore room)
{
    public const string Heading = "paper,format,from,from_packs,pack,price";
    private const int MostBytes = 2_000_000;
    private const int MostLines = 20_000;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (request.Csv.Length > MostBytes)
            {
                return new CannotBeRead($"The list is larger than {MostBytes / 1_000_000} MB.");
            }

            if (await db.Suppliers.FindAsync([request.Supplier], cancel) is null)
            {
                return new NoSuchSupplier(request.Supplier);
            }

            var papers = await db.Papers.Select(p => p.Code).ToListAsync(cancel);
            var formats = await db.Formats.AsNoTracking().ToDictionaryAsync(f => f.Code, cancel);
            var (lines, wrong) = Read(request, [.. papers], formats);
            if (wrong is not null)
            {
                return wrong;
            }

            var report = lines.Select(l => l.Report).ToList();
            if (lines.All(l => l.Price is not null) && !request.DryRun)
            {
                await WriteAsync(db, request.Supplier, [.. lines.Select(l => l.Price!)], cancel);
            }

            return new Done(report, report.Count(l => l.Wrong), request.DryRun);
        }, cancel);

    private static async Task WriteAsync(RoomDb db, SupplierCode supplier, IReadOnlyList<SetPrice.Request> prices, CancellationToken cancel)
    {
        foreach (var price in prices)
        {
            var item = await db.Items.FindAsync([price.Item.Paper, price.Item.Format], cancel);
            if (item is null)
            {
                db.Items.Add(item = new() { Paper = price.Item.Paper, Format = price.Item.Format, PackSize = price.PackSize });
            }

            item.Supplier ??= supplier;
            await db.WritePriceAsync(price, cancel);
        }
    }

    internal static (List<(SetPrice.Request? Price, ReportLine Report)> Lines, Refusal? Wrong) Read(
        Request request, HashSet<PaperCode> papers, Dictionary<FormatCode, Format> formats)
    {
        using var csv = new CsvReader(new StringReader(request.Csv.TrimStart('\uFEFF')), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            TrimOptions = TrimOptions.Trim,
            BadDataFound = null,
            MissingFieldFound = null,
            MaxFieldSize = 500,
        });
        var lines = new List<(SetPrice.Request?, ReportLine)>();
        try
        {
            if (!csv.Read() || !csv.ReadHeader() || !string.Join(',', csv.HeaderRecord!).Equals(Heading, StringComparison.OrdinalIgnoreCase))
            {
                return (lines, new CannotBeRead($"The first line has to be {Heading}."));
            }

            var seen = new Dictionary<(ItemCode, DateOnly, int), int>();
            while (csv.Read())
            {
                if (lines.Count == MostLines)
                {
                    return (lines, new CannotBeRead($"The list has more than {MostLines} lines."));
                }

                lines.Add(ReadLine(csv, request, papers, formats, seen));
            }
        }
        catch (CsvHelperException e)
        {
            return (lines, new CannotBeRead($"Line {e.Context?.Parser?.RawRow} is broken."));
        }

        return lines.Count == 0 ? (lines, new CannotBeRead("No price follows the heading.")) : (lines, null);
    }

    private static (SetPrice.Request?, ReportLine) ReadLine(
        CsvReader csv, Request request, HashSet<PaperCode> papers, Dictionary<FormatCode, Format> formats, Dictionary<(ItemCode, DateOnly, int), int> seen)
    {
        var at = csv.Parser.RawRow;
        (SetPrice.Request?, ReportLine) No(string why) => (null, new(at, true, why));
        var (paper, format) = (new PaperCode(csv[0] ?? ""), new FormatCode(csv[1] ?? ""));
        if (csv.Parser.Count != 6)
        {
            return No($"has {csv.Parser.Count} fields instead of 6");
        }

        if (!papers.Contains(paper))
        {
            return No($"the room has no paper “{paper}”");
        }

        if (!formats.TryGetValue(format, out var known))
        {
            return No($"the room has no format “{format}”");
        }

        if (!DateOnly.TryParseExact(csv[2], "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var from))
        {
            return No($"“{csv[2]}” is no day; write it as 2026-03-02");
        }

        if (!int.TryParse(csv[3], NumberStyles.None, CultureInfo.InvariantCulture, out var packs) || packs is < 1 or > PriceLimits.MostPacks)
        {
            return No($"“{csv[3]}” is no number of packs from 1 to {PriceLimits.MostPacks}");
        }

        if (!long.TryParse(csv[4], NumberStyles.None, CultureInfo.InvariantCulture, out var pack) || pack is < 1 or > PriceLimits.MostInAPack)
        {
            return No($"“{csv[4]}” is no pack; write {(known.IsRoll ? "the roll's length in whole mm" : "whole sheets")}");
        }

        if (!decimal.TryParse(csv[5], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var price) || price > PriceLimits.Most)
        {
            return No($"“{csv[5]}” is no price; write it with a point, as 12.50");
        }

        if (!seen.TryAdd((new(paper, format), from, packs), at))
        {
            return No($"says again what line {seen[(new(paper, format), from, packs)]} says");
        }

        return (new(request.Supplier, new(paper, format), from, packs, pack, price),
            new(at, false, string.Create(CultureInfo.CurrentCulture, $"{paper} {format}: {price} for {pack} {known.Unit} from {packs} on")));
    }

    public sealed record Request(SupplierCode Supplier, string Csv, bool DryRun)
    {
        // A list is long, and a request is written where it is asked.
        private bool PrintMembers(StringBuilder text)
        {
            text.Append(CultureInfo.InvariantCulture, $"{Supplier}, {Csv.Length} letters, {(DryRun ? "dry run" : "for good")}");
            return true;
        }
    }

    /// <param name="Wrong">How many lines are wrong; when any is, nothing was taken in.</param>
    public sealed record Done(IReadOnlyList<ReportLine> Lines, int Wrong, bool WasDryRun)
    {
        public bool TakenIn => Wrong == 0 && !WasDryRun;
    }

    public sealed record ReportLine(int Line, bool Wrong, string Says);

    public sealed record CannotBeRead(string Why) : Refusal($"{Why} Nothing was taken in.");
}

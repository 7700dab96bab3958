using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Shelf;
using Goodsheet.App.Storage;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Opening;

/// <summary>What the room knows, and what it will know once the lists before a line are taken in.</summary>
internal sealed class OpeningPass
{
    private OpeningPass(RoomDb db) => Db = db;

    public RoomDb Db { get; }

    public required DateOnly Today { get; init; }

    public required DecimalMark Mark { get; init; }

    /// <summary>Under which command the present list is taken in.</summary>
    public required Wish Wish { get; set; }

    public required Dictionary<PaperCode, Paper> Papers { get; init; }

    public required Dictionary<string, Format> Formats { get; init; }

    /// <summary>By short name, what each is called.</summary>
    public required Dictionary<SupplierCode, string> Suppliers { get; init; }

    public required HashSet<string> Clients { get; init; }

    public required Dictionary<PrinterCode, Printer> Printers { get; init; }

    public required Dictionary<ConsumableCode, (Consumable Kept, int Lots, int Moves)> Consumables { get; init; }

    public required Dictionary<ItemCode, Item> Items { get; init; }

    /// <summary>Profiles that came beside the lists, by file name: their path.</summary>
    public required IReadOnlyDictionary<string, string> Beside { get; init; }

    /// <summary>The next free numbers.</summary>
    public required int NextLot { get; set; }

    public required int NextClient { get; set; }

    public required int NextProfile { get; set; }

    /// <summary>The files beside the lists that a line named.</summary>
    public HashSet<string> Named { get; } = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>What a list said already, and on which line.</summary>
    public Dictionary<string, int> Seen { get; } = [];

    public static async Task<OpeningPass> BeginAsync(
        RoomDb db, DateOnly today, DecimalMark mark, Wish wish, IReadOnlyDictionary<string, string> beside, CancellationToken cancel)
    {
        var lots = (await db.ConsumableLots.AsNoTracking().ToListAsync(cancel)).CountBy(l => l.Consumable).ToDictionary();
        var moves = (await db.ConsumableMoves.AsNoTracking().ToListAsync(cancel)).CountBy(m => m.Consumable).ToDictionary();
        return new(db)
        {
            Today = today,
            Mark = mark,
            Wish = wish,
            Beside = beside,
            Papers = await db.Papers.ToDictionaryAsync(p => p.Code, cancel),
            Formats = await db.Formats.ToDictionaryAsync(f => f.Code.Value, StringComparer.OrdinalIgnoreCase, cancel),
            Suppliers = await db.Suppliers.ToDictionaryAsync(s => s.Code, s => s.Name, cancel),
            Clients = (await db.Clients.Select(c => c.Name).ToListAsync(cancel)).ToHashSet(StringComparer.OrdinalIgnoreCase),
            Printers = await db.Printers.Where(p => !p.Gone).ToDictionaryAsync(p => p.Code, cancel),
            Consumables = (await db.Consumables.ToListAsync(cancel)).ToDictionary(c => c.Code, c => (c, lots.GetValueOrDefault(c.Code), moves.GetValueOrDefault(c.Code))),
            Items = (await db.Items.ToListAsync(cancel)).ToDictionary(i => i.Code),
            NextLot = int.Parse((await PutAway.NextAsync(db, cancel)).Value, System.Globalization.CultureInfo.InvariantCulture),
            NextProfile = (await db.Profiles.MaxAsync(p => (int?)p.Number, cancel) ?? 0) + 1,
            NextClient = (await db.Clients.MaxAsync(c => (int?)c.Number, cancel) ?? 0) + 1,
        };
    }

    public OpeningPass For(Wish wish)
    {
        Wish = wish;
        Seen.Clear();
        return this;
    }

    /// <summary>By its short name, or by its name as it is written.</summary>
    public Paper Paper(string text) => Papers.GetValueOrDefault(new(Slug.Of(text))) ?? Papers.Values.FirstOrDefault(p => IsCalled(p.Name, text)) ?? throw new LineIsWrongException($"the room has no paper “{text}”, and no list here names it");

    public Format Format(string text) => Formats.GetValueOrDefault(text) ?? throw new LineIsWrongException($"the room has no format “{text}”; it has {string.Join(", ", Formats.Keys)}");

    public SupplierCode Supplier(string text) => Suppliers.ContainsKey(new(Slug.Of(text))) ? new(Slug.Of(text))
        : Suppliers.FirstOrDefault(s => IsCalled(s.Value, text)) is { Value: not null } named ? named.Key
        : throw new LineIsWrongException($"the room has no supplier “{text}”, and no list here names it");

    public Printer Printer(string text) => Printers.GetValueOrDefault(new(Slug.Of(text))) ?? Printers.Values.FirstOrDefault(p => IsCalled(p.Name, text)) ?? throw new LineIsWrongException($"the room has no printer “{text}”; add it under Printers first");

    /// <summary>A paper in a format, written down if it was not.</summary>
    public Item Item(Paper paper, Format format, long pack)
    {
        var code = new ItemCode(paper.Code, format.Code);
        if (!Items.TryGetValue(code, out var item))
        {
            Db.Items.Add(item = Items[code] = new() { Paper = paper.Code, Format = format.Code, PackSize = pack });
        }

        return item;
    }

    private static bool IsCalled(string name, string text) => name.Equals(text, StringComparison.OrdinalIgnoreCase);

    /// <summary>Refuses what an earlier line of the same list says already.</summary>
    public void Once(string key, int line)
    {
        if (!Seen.TryAdd(key, line))
        {
            throw new LineIsWrongException($"says again what line {Seen[key]} says");
        }
    }
}

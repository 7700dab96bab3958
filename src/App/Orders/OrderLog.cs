using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;

namespace Goodsheet.App.Orders;

/// <summary>Writes the facts of an order, inside a step of the store.</summary>
internal static class OrderLog
{
    public const int LongestText = 400;
    private const int HashLetters = 12;

    /// <summary>The order, to be changed; a refusal when there is none.</summary>
    public static async Task<Outcome<Order>> FindAsync(RoomDb db, int number, CancellationToken cancel) =>
        await db.Orders.FindAsync([number], cancel) is { } order ? order : new NoSuchOrder(number);

    public static async Task<int> NextAsync(RoomDb db, int order, CancellationToken cancel) =>
        (await db.OrderFacts.Where(f => f.Order == order).MaxAsync(f => (int?)f.Number, cancel) ?? 0) + 1;

    /// <summary>Adds a plain fact.</summary>
    public static async Task AddAsync(RoomDb db, int order, FactKind kind, string text, DateTimeOffset at, PersonName by, CancellationToken cancel) =>
        db.OrderFacts.Add(new() { Order = order, Number = await NextAsync(db, order, cancel), Kind = kind, At = at, By = by, Text = text });

    /// <summary>The pictures of an order as they are now: name and the first letters of their SHA-256.</summary>
    public static async Task<string> FilesAsync(RoomDb db, int order, CancellationToken cancel)
    {
        var lines = await db.PrintLines.AsNoTracking().Where(l => l.Order == order).OrderBy(l => l.Line).Take(100).ToListAsync(cancel);
        return string.Join(", ", lines.Select(l => $"{l.ImageName} ({(l.ImageHash.Length > HashLetters ? l.ImageHash[..HashLetters] : l.ImageHash)})"));
    }

    /// <summary>What a proof of an order shows now: paper, profile and intent of each print.</summary>
    public static async Task<string> ProofAsync(RoomDb db, int order, CancellationToken cancel)
    {
        var lines = await db.PrintLines.AsNoTracking().Where(l => l.Order == order).OrderBy(l => l.Line).Take(100).ToListAsync(cancel);
        var profiles = new Dictionary<PaperCode, string>();
        foreach (var paper in lines.Select(l => l.Paper).Distinct())
        {
            var name = await db.Papers.Where(p => p.Code == paper).Select(p => p.Name).SingleAsync(cancel);
            profiles[paper] = await PreparePrint.ProfileForAsync(db, paper, cancel) is var (profile, _) ? $"{name}, profile {profile.Number}" : $"{name}, no profile";
        }

        return string.Join("; ", lines.GroupBy(l => $"{profiles[l.Paper]}, {l.Intent.ToString().ToLowerInvariant()}")
            .Select(g => lines.Count == g.Count() ? g.Key : $"{(g.Count() == 1 ? "print" : "prints")} {string.Join(", ", g.Select(l => l.Line))}: {g.Key}"));
    }
}

public sealed record NoSuchOrder(int Order) : Refusal($"There is no order {Order}.");

public sealed record SayWhy(string What) : Refusal($"{What} In a few words, at most {OrderLog.LongestText} letters.");

using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;
using Goodsheet.Room.Units;

namespace Goodsheet.Bench.Shelf;

/// <summary>Ten invented years of a room: twelve papers in six formats, written by the ledger's own rules.</summary>
internal sealed class TenYears(RoomStore room, int moves) : IDisposable
{
    private const int Papers = 12;
    private const int Days = 3_652;
    private const int Seed = 7;

    private static readonly PersonName Mira = new("Mira");
    private static readonly PrinterCode Heron = new("heron");

    private readonly Random random = new(Seed);
    private readonly SqliteConnection connection = new(room.Connection);
    private readonly DateTimeOffset end = TimeProvider.System.GetUtcNow();
    private int written;
    private int nextLot = 1001;

    public void Dispose() => connection.Dispose();

    public int Lots => nextLot - 1001;

    public async Task<int> WriteAsync()
    {
        await room.MigrateAsync(CancellationToken.None);
        var items = await FurnishAsync();
        await connection.OpenAsync();
        await using var transaction = (SqliteTransaction)await connection.BeginTransactionAsync();
        using var lotRow = Insert(transaction, "INSERT INTO lot (code, paper, format, received, best_before, place, condition) VALUES ($0, $1, $2, $3, $4, '', 1)", 5);
        using var command = Insert(transaction, "INSERT INTO command_record (id, content, at, by) VALUES ($0, 'bench', $1, 'Mira')", 2);
        using var moveRow = Insert(transaction, "INSERT INTO move (lot, number, command, line, \"from\", \"to\", quantity, reason, reference, at, by) VALUES ($0, $1, $2, $3, $4, $5, $6, $7, NULL, $8, 'Mira')", 9);
        using var kept = Insert(transaction, "INSERT INTO lot_balance (lot, through, on_shelf, at_printers) VALUES ($0, $1, $2, $3) ON CONFLICT (lot) DO UPDATE SET through = excluded.through, on_shelf = excluded.on_shelf, at_printers = excluded.at_printers", 4);
        var current = items.ToDictionary(i => i, _ => ((Lot Lot, LotBalance Balance)?)null);
        while (written < moves)
        {
            var item = items[random.Next(items.Count)];
            var at = end.AddDays(-Days * (1 - ((double)written / moves)));
            var (lot, balance) = current[item] ?? New(item, at);
            if (balance.Through == 0)
            {
                Run(lotRow, lot.Code.Value, item.Paper.Value, item.Format.Value, Day(lot.Received), Day(lot.BestBefore!.Value));
                balance = Add(lot.PutAway(balance, random.Next(25, 101), Wish(at)));
            }

            var sheets = Math.Min(balance.OnShelf, random.Next(1, 5));
            balance = Add(lot.Draw(balance, sheets, Heron, Wish(at), lot.Received).Value!);
            balance = Add(lot.Use(balance, sheets, Heron, random.Next(20) == 0 ? Account.Waste(WasteCause.Curl) : Account.Good, Wish(at)).Value!);
            current[item] = balance.OnShelf > 0 ? (lot, balance) : null;

            LotBalance Add(Move move)
            {
                Run(command, move.Command.Value.ToString().ToUpperInvariant(), move.At.UtcTicks);
                Run(moveRow, move.Lot.Value, move.Number, move.Command.Value.ToString().ToUpperInvariant(), move.Line, move.From.Text, move.To.Text, move.Quantity, move.Reason ?? "", move.At.UtcTicks);
                var after = balance.After(move);
                if (after.CheckpointIsDue)
                {
                    Run(kept, move.Lot.Value, after.Through, after.OnShelf, string.Join(';', after.AtPrinters.Select(p => $"{p.Key}={p.Value}")));
                }

                written++;
                return after;
            }
        }

        await transaction.CommitAsync();
        return written;
    }

    private async Task<List<ItemCode>> FurnishAsync()
    {
        await using var db = room.Open();
        var formats = (await db.Formats.Where(f => !f.IsRoll).Select(f => f.Code).ToListAsync()).ToList();
        foreach (var (name, width, height) in ((string, int, int)[])[("A5", 148, 210), ("A1", 594, 841)])
        {
            db.Formats.Add(new() { Code = new(name), IsRoll = false, Width = Length.FromMillimetres(width), Height = Length.FromMillimetres(height), Order = 20 });
            formats.Add(new(name));
        }

        var items = new List<ItemCode>();
        for (var p = 1; p <= Papers; p++)
        {
            var paper = new PaperCode($"invented-{p}");
            db.Papers.Add(new() { Code = paper, Name = $"Invented {p}", Class = (PaperClass)(1 + (p % 8)), Base = PaperBase.Cotton, Coat = Coat.Dull, Grammage = 300, Feed = Feed.OneByOne, LineUp = LineUp.In });
            foreach (var format in formats)
            {
                db.Items.Add(new() { Paper = paper, Format = format, PackSize = 25, Reserve = 5 });
                items.Add(new(paper, format));
            }
        }

        db.Printers.Add(new() { Code = Heron, Name = "Heron", Inks = InkKind.Pigment, Width = Length.FromMillimetres(610), FeedPaths = 0b1111 });
        db.Loaded.Add(new() { Printer = Heron, Black = BlackInk.Photo, By = Mira });
        await db.SaveChangesAsync();
        return items;
    }

    private (Lot, LotBalance) New(ItemCode item, DateTimeOffset at)
    {
        var received = DateOnly.FromDateTime(at.UtcDateTime);
        var lot = new Lot { Code = new($"{nextLot++}"), Paper = item.Paper, Format = item.Format, Received = received, BestBefore = received.AddYears(2) };
        return (lot, LotBalance.Nothing(lot.Code));
    }

    private static Wish Wish(DateTimeOffset at) => new(CommandId.New(), Mira, at, "bench");

    private static string Day(DateOnly day) => day.ToString("O", System.Globalization.CultureInfo.InvariantCulture);

    private SqliteCommand Insert(SqliteTransaction transaction, string sql, int values)
    {
        var command = connection.CreateCommand();
        (command.CommandText, command.Transaction) = (sql, transaction);
        for (var i = 0; i < values; i++)
        {
            command.Parameters.Add(new($"${i}", null));
        }

        command.Prepare();
        return command;
    }

    private static void Run(SqliteCommand command, params ReadOnlySpan<object> values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            command.Parameters[i].Value = values[i];
        }

        command.ExecuteNonQuery();
    }
}

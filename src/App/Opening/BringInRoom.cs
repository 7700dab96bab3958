using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Opening;

/// <summary>Takes all that a room has on its opening day in from lists and profiles: every line of every list, or nothing and a report.</summary>
public sealed class BringInRoom(RoomStore room, FileShelf files, TimeProvider clock)
{
    private const int MostFiles = 60;
    private const long LargestProfile = 50_000_000;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Files.Count is 0 or > MostFiles)
        {
            return new NotSoMany();
        }

        var (lists, beside, reports) = (new List<OpeningFile>(), new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase), new List<FileReport>());
        foreach (var (name, path) in request.Files)
        {
            if (!File.Exists(path))
            {
                reports.Add(Unread(name, "is not here"));
            }
            else if (Path.GetExtension(name).ToLowerInvariant() is ".icc" or ".icm")
            {
                if (new FileInfo(path).Length > LargestProfile || !beside.TryAdd(name, path))
                {
                    reports.Add(Unread(name, beside.ContainsKey(name) ? "came twice" : "is too large for a profile"));
                }
            }
            else if (new FileInfo(path).Length > OpeningFile.MostBytes)
            {
                reports.Add(Unread(name, $"is larger than {OpeningFile.MostBytes / 1_000_000} MB"));
            }
            else if (OpeningFile.Read(name, await File.ReadAllTextAsync(path, cancel)) is var (list, wrong))
            {
                if (list is null)
                {
                    reports.Add(Unread(name, wrong!));
                }
                else
                {
                    lists.Add(list);
                }
            }
        }

        // Profiles are kept by their content before the step, so that the step itself is all or nothing.
        var hashes = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var (name, path) in request.DryRun ? [] : beside)
        {
            await using var stream = File.OpenRead(path);
            hashes[name] = (await files.KeepAsync(stream, cancel)).Hash;
        }

        return await room.ChangeAsync<Done>(async db =>
        {
            var step = new List<FileReport>(reports);
            await ReadAsync(db, request, [.. lists.OrderBy(l => l.Kind)], beside, hashes, step, cancel);
            var wrong = step.Sum(r => r.Lines.Count(l => l.State is LineState.Wrong));
            if (wrong > 0 || request.DryRun)
            {
                db.ChangeTracker.Clear(); // nothing half
            }

            return new Done(step, wrong, request.DryRun);
        }, cancel);
    }

    private async Task ReadAsync(
        RoomDb db, Request request, IReadOnlyList<OpeningFile> lists, Dictionary<string, string> beside, Dictionary<string, string> hashes, List<FileReport> reports, CancellationToken cancel)
    {
        var pass = (OpeningPass?)null;
        foreach (var list in lists)
        {
            // A list of goods counts what lies here: the same list again would count it twice.
            var wish = new Wish(CommandOf(list), request.By, clock.GetUtcNow(), "opening day", list.Name);
            if (list.Kind is OpeningKind.Shelf or OpeningKind.Consumables)
            {
                if (await db.Commands.FindAsync([wish.Command], cancel) is { } earlier)
                {
                    reports.Add(new(list.Name, list.Kind, [.. list.Rows.Select(r => new OpeningLine(r.Line, LineState.Known, $"this very list was taken in on {earlier.At:yyyy-MM-dd} already"))]));
                    continue;
                }

                db.Commands.Add(new() { Id = wish.Command, Content = $"opening day: {list.Kind}", At = wish.At, By = wish.By });
            }

            pass = pass?.For(wish) ?? await OpeningPass.BeginAsync(db, clock.Today(), request.Mark, wish, beside, cancel);
            var lines = new List<OpeningLine>();
            foreach (var row in list.Rows)
            {
                lines.Add(Read(pass, list.Kind, row, hashes));
            }

            reports.Add(new(list.Name, list.Kind, lines));
        }

        foreach (var name in beside.Keys.Where(n => pass is null || !pass.Named.Contains(n)))
        {
            reports.Add(Unread(name, "is named by no line of a list of profiles, so its printer and paper are not known"));
        }
    }

    private static OpeningLine Read(OpeningPass pass, OpeningKind kind, OpeningFile.Row row, Dictionary<string, string> hashes)
    {
        try
        {
            var (state, says) = row.Broken is { } broken ? throw new LineIsWrongException(broken) : kind switch
            {
                OpeningKind.Papers => OpeningNames.Paper(pass, row),
                OpeningKind.Suppliers => OpeningNames.Supplier(pass, row),
                OpeningKind.Clients => OpeningNames.Client(pass, row),
                OpeningKind.Consumables => OpeningGoods.Consumable(pass, row),
                OpeningKind.Prices => OpeningGoods.Price(pass, row),
                OpeningKind.Shelf => OpeningGoods.Shelf(pass, row),
                _ => OpeningProfiles.Profile(pass, row, hashes),
            };
            return new(row.Line, state, says);
        }
        catch (LineIsWrongException wrong)
        {
            return new(row.Line, LineState.Wrong, wrong.Message);
        }
    }

    /// <summary>The first line of a list of that kind, with all the columns it may have.</summary>
    public static string Heading(OpeningKind kind) => OpeningFile.Heading(kind);

    private static FileReport Unread(string name, string why) => new(name, null, [new(0, LineState.Wrong, why)]);

    private static CommandId CommandOf(OpeningFile list) => new(new Guid(SHA256.HashData(Encoding.UTF8.GetBytes($"{list.Kind}\n{list.Text}")).AsSpan(0, 16)));

    /// <param name="Files">Lists and profiles: the name each came by, and where it lies.</param>
    /// <param name="Mark">What stands before decimals in the lists.</param>
    /// <param name="DryRun">Only say what would be taken in.</param>
    public sealed record Request(PersonName By, IReadOnlyList<(string Name, string Path)> Files, DecimalMark Mark, bool DryRun);

    /// <param name="Wrong">How many lines are wrong; when any is, nothing was taken in.</param>
    public sealed record Done(IReadOnlyList<FileReport> Files, int Wrong, bool WasDryRun)
    {
        public bool TakenIn => Wrong == 0 && !WasDryRun;

        public int Of(LineState state) => Files.Sum(f => f.Lines.Count(l => l.State == state));
    }

    /// <param name="Kind">What it is a list of; none when it could not be read.</param>
    public sealed record FileReport(string Name, OpeningKind? Kind, IReadOnlyList<OpeningLine> Lines);

    public sealed record NotSoMany() : Refusal($"Choose 1 to {MostFiles} files. Nothing was taken in.");
}

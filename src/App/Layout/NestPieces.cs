using Goodsheet.App.Documents;
using Goodsheet.Room;
using Goodsheet.Room.Layout;

namespace Goodsheet.App.Layout;

/// <summary>Lays a list of pieces on a roll or sheets and writes the layout, its cut list and a drawing.</summary>
public sealed class NestPieces(TimeProvider clock)
{
    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var read = await PieceFile.ReadAsync(request.Pieces, request.MayTurn, cancel);
        if (!read.Granted)
        {
            return read.Refusal;
        }

        var begin = clock.GetTimestamp();
        var outcome = NestPacker.Pack(read.Value, request.Stock, request.Seed, turn =>
        {
            cancel.ThrowIfCancellationRequested();
            return clock.GetElapsedTime(begin) >= request.Time;
        });
        if (outcome.Value is not { } nest)
        {
            return outcome.Refusal!;
        }

        if (LayoutVerifier.Check(nest) is { Count: > 0 } faults)
        {
            throw new InvalidOperationException($"The layout is not sound: {faults[0]}");
        }

        var report = NestReport.Of(nest, request.Seed, clock.GetUtcNow());
        var files = new List<(string, string)>();
        if (request.Out is { } json)
        {
            files.Add((json, report.ToJson()));
        }

        if (request.Drawing is { } svg)
        {
            files.Add((svg, LayoutSvg.Draw(nest)));
        }

        return Missing(files) is { } no ? no : await WriteAsync(files, new(nest, report), cancel);
    }

    private static NoFolder? Missing(List<(string Path, string Text)> files) => files
        .Select(f => Path.GetDirectoryName(Path.GetFullPath(f.Path))!)
        .FirstOrDefault(folder => !Directory.Exists(folder)) is { } missing ? new NoFolder(missing) : null;

    /// <summary>All files whole beside their places first, so that a full disk leaves no half layout.</summary>
    private static async Task<Done> WriteAsync(List<(string Path, string Text)> files, Done done, CancellationToken cancel)
    {
        var written = new List<(string From, string To)>();
        try
        {
            foreach (var (path, text) in files)
            {
                var temporary = $"{path}.{Guid.NewGuid():N}.part";
                written.Add((temporary, path));
                await File.WriteAllTextAsync(temporary, text, cancel);
            }

            written.ForEach(w => File.Move(w.From, w.To, overwrite: true));
        }
        finally
        {
            written.ForEach(w => File.Delete(w.From));
        }

        return done;
    }

    /// <param name="Time">How long to search for something better than the start.</param>
    public sealed record Request(
        string Pieces, Stock Stock, bool MayTurn, TimeSpan Time, int Seed, string? Out = null, string? Drawing = null);

    public sealed record Done(Nest Nest, NestReport Report);

    public sealed record NoFolder(string Folder) : Refusal($"There is no folder {Folder} to write to.");
}

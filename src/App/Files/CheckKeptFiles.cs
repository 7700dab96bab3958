using System.Security.Cryptography;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;

namespace Goodsheet.App.Files;

/// <summary>Reads every kept file through and compares it with its name: what a tired disk has changed shows here first.</summary>
public sealed class CheckKeptFiles(RoomStore room, FileShelf files, TimeProvider clock) : LongWork(room)
{
    private static readonly TimeSpan TellEvery = TimeSpan.FromSeconds(0.5);

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var all = files.All().ToList();
        var total = Math.Max(1, all.Sum(f => new FileInfo(files.PathOf(f)).Length));
        var changed = new List<string>();
        var buffer = new byte[1 << 20];
        var (done, told) = (0L, clock.GetTimestamp());
        foreach (var name in all)
        {
            await using var file = File.OpenRead(files.PathOf(name));
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            while (await file.ReadAsync(buffer, cancel) is var read && read > 0)
            {
                hash.AppendData(buffer, 0, read);
                done += read;
                if (clock.GetElapsedTime(told) > TellEvery)
                {
                    await tell((int)(done * 100 / total));
                    told = clock.GetTimestamp();
                }
            }

            if (Convert.ToHexStringLower(hash.GetHashAndReset()) != name)
            {
                changed.Add(name);
            }
        }

        return changed.Count == 0
            ? $"{all.Count} files read through, all as they were."
            : $"{changed.Count} of {all.Count} files differ from what was kept: {string.Join(", ", changed.Take(10))}. Take them from a backup.";
    }
}

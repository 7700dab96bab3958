using System.IO.Compression;
using System.Security.Cryptography;
using Goodsheet.Room;

namespace Goodsheet.App.Backup;

/// <summary>A backup that was opened and looked through before anything of it is written. What it says of itself is not believed.</summary>
internal sealed class Archive : IDisposable
{
    /// <summary>Records pack to a tenth or so; what would unpack to more than this many times itself is a trap.</summary>
    private const long MostUnpacked = 200;

    private readonly ZipArchive zip;

    private Archive(ZipArchive zip, ArchiveManifest manifest) => (this.zip, Manifest) = (zip, manifest);

    public ArchiveManifest Manifest { get; }

    public long Bytes => Manifest.Entries.Sum(e => e.Length);

    public static Outcome<Archive> Open(string path)
    {
        ZipArchive? zip = null;
        try
        {
            zip = ZipFile.OpenRead(path);
            var checkedOut = Look(zip);
            if (checkedOut.Granted)
            {
                zip = null; // the archive's own from here
            }

            return checkedOut;
        }
        catch (Exception e) when (IsBroken(e))
        {
            return new NotABackup("it cannot be read as an archive, or is cut off");
        }
        finally
        {
            zip?.Dispose();
        }
    }

    /// <summary>What reading a broken archive throws; a broken disk is not among it.</summary>
    public static bool IsBroken(Exception e) => e is InvalidDataException or EndOfStreamException or NotSupportedException or ArgumentException or OverflowException
        || (e is IOException && e.GetType() == typeof(IOException) && e.InnerException is null && e.HResult == unchecked((int)0x80131620));

    /// <summary>Writes one entry to a file, and says whether it is what the manifest says.</summary>
    public async Task<bool> ExtractAsync(ArchiveManifest.Entry entry, string to, CancellationToken cancel)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(to)!);
        await using var from = zip.GetEntry(entry.Name)!.Open();
        await using var file = new FileStream(to, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1 << 16, useAsync: false);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var buffer = new byte[1 << 17];
        var left = entry.Length;
        while (await from.ReadAsync(buffer, cancel) is var read && read > 0)
        {
            left -= read;
            if (left < 0)
            {
                return false; // longer than it says: stop at once
            }

            hash.AppendData(buffer, 0, read);
            await file.WriteAsync(buffer.AsMemory(0, read), cancel);
        }

        await file.FlushAsync(cancel);
        file.Flush(flushToDisk: true);
        return left == 0 && Convert.ToHexStringLower(hash.GetHashAndReset()) == entry.Sha256;
    }

    public void Dispose() => zip.Dispose();

    private static Outcome<Archive> Look(ZipArchive zip)
    {
        if (zip.Entries.Count > ArchiveManifest.MostEntries || zip.GetEntry(ArchiveManifest.Name) is not { } itself
            || itself.Length > ArchiveManifest.LargestManifest)
        {
            return new NotABackup("it has no manifest that this version knows");
        }

        if (ArchiveManifest.Read(ReadAll(itself)) is not { Format: ArchiveManifest.ThisFormat, Entries: not null } manifest)
        {
            return new NotABackup("its manifest cannot be read");
        }

        if (manifest.Version != ArchiveManifest.ThisVersion)
        {
            return new MadeByALaterVersion();
        }

        if (manifest.Entries.Any(e => e?.Name is null))
        {
            return new NotABackup("its manifest cannot be read");
        }

        var said = manifest.Entries.ToLookup(e => e.Name, StringComparer.Ordinal);
        if (said.Any(e => e.Count() > 1 || !ArchiveManifest.IsOurs(e.Key)) || !said.Contains(ArchiveManifest.Records))
        {
            return new NotABackup("its manifest names what is not of a room");
        }

        var there = zip.Entries.Where(e => e.FullName != ArchiveManifest.Name).ToLookup(e => e.FullName, StringComparer.Ordinal);
        foreach (var entries in there)
        {
            if (entries.Count() > 1 || !said.Contains(entries.Key))
            {
                return new NotABackup($"“{Short(entries.Key)}” is in it and not in its manifest");
            }
        }

        foreach (var entry in manifest.Entries)
        {
            if (there[entry.Name].SingleOrDefault() is not { } found || found.Length != entry.Length
                || found.Length > Math.Max(1 << 20, MostUnpacked * found.CompressedLength))
            {
                return new NotABackup($"“{entry.Name}” is missing or is not as long as its manifest says");
            }
        }

        return zip.Entries.Count - 1 == manifest.Entries.Count ? new Archive(zip, manifest) : new NotABackup("its manifest and what is in it differ");
    }

    private static byte[] ReadAll(ZipArchiveEntry entry)
    {
        using var from = entry.Open();
        using var all = new MemoryStream();
        var buffer = new byte[1 << 16];
        while (from.Read(buffer) is var read && read > 0)
        {
            if (all.Length + read > ArchiveManifest.LargestManifest)
            {
                throw new InvalidDataException("longer than it says");
            }

            all.Write(buffer, 0, read);
        }

        return all.ToArray();
    }

    private static string Short(string name) => string.Concat(name.Where(c => !char.IsControl(c)).Take(60));
}

public sealed record NotABackup(string Why) : Refusal($"This is no backup of a room, or a damaged one: {Why}. Nothing was written.");

public sealed record MadeByALaterVersion() : Refusal("This backup was made by a newer Goodsheet than this one. Restore it with that. Nothing was written.");

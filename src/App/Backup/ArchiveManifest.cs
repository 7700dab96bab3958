using System.Text.Json;
using System.Text.RegularExpressions;

namespace Goodsheet.App.Backup;

/// <summary>What a backup says of itself: every entry with its length and SHA-256. The form it is written in, version 1.</summary>
internal sealed partial record ArchiveManifest(string Format, int Version, DateTimeOffset Made, IReadOnlyList<ArchiveManifest.Entry> Entries)
{
    public const string Name = "manifest.json";
    public const string Records = "room.db";
    public const string ThisFormat = "goodsheet-room-backup";
    public const int ThisVersion = 1;
    public const int MostEntries = 1_000_000;
    public const int LargestManifest = 200_000_000;

    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web) { MaxDepth = 6 };

    public static string NameOf(string hash) => $"files/{hash[..2]}/{hash}";

    /// <summary>Only the records and files by their hash have a place in a room; any other name would be a way out of it.</summary>
    public static bool IsOurs(string name) => name is Records || (KeptFile().Match(name) is { Success: true } kept
        && kept.Groups[2].Value.StartsWith(kept.Groups[1].Value, StringComparison.Ordinal));

    public static ArchiveManifest? Read(byte[] json)
    {
        try
        {
            return JsonSerializer.Deserialize<ArchiveManifest>(json, Form);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    public byte[] Write() => JsonSerializer.SerializeToUtf8Bytes(this, Form);

    [GeneratedRegex(@"^files/([0-9a-f]{2})/([0-9a-f]{64})\z")]
    private static partial Regex KeptFile();

    public sealed record Entry(string Name, long Length, string Sha256);
}

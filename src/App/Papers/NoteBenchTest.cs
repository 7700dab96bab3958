using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;

namespace Goodsheet.App.Papers;

/// <summary>Writes down what was tried or looked at on the bench, with a photograph where there is one.</summary>
public sealed class NoteBenchTest(RoomStore room, FileShelf files, TimeProvider clock)
{
    private const int LongestNote = 600;
    private const double LargestValue = 100_000;
    private const long LargestPhoto = 40_000_000;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Photo is { } hash && (!files.Has(hash) || await TypeOfAsync(files.PathOf(hash), cancel) is null))
        {
            return new NotAPhoto();
        }

        if (!Enum.IsDefined(request.Kind) || !Enum.IsDefined(request.Verdict) || request.Note.Length > LongestNote || request.Value is not (null or (>= 0 and <= LargestValue)))
        {
            return new CannotBe();
        }

        return await room.ChangeAsync<Done>(async db =>
        {
            if (!await db.Papers.AnyAsync(p => p.Code == request.Paper, cancel))
            {
                return new NoSuchPaper(request.Paper);
            }

            db.BenchTests.Add(new()
            {
                Id = Guid.CreateVersion7(),
                Paper = request.Paper,
                Kind = request.Kind,
                Verdict = request.Verdict,
                Value = BenchTest.Unit(request.Kind) is null ? null : request.Value,
                Note = request.Note.Trim(),
                Photo = request.Photo,
                At = clock.GetUtcNow(),
                By = request.By,
            });
            return new Done(request.Paper);
        }, cancel);
    }

    /// <summary>What a photograph's first bytes say it is; none if it is neither JPEG nor PNG, or too large for a page.</summary>
    internal static async Task<string?> TypeOfAsync(string path, CancellationToken cancel)
    {
        var head = new byte[4];
        await using var file = File.OpenRead(path);
        if (file.Length > LargestPhoto || await file.ReadAtLeastAsync(head, head.Length, throwOnEndOfStream: false, cancel) < head.Length)
        {
            return null;
        }

        return head is [0xFF, 0xD8, 0xFF, _] ? "image/jpeg" : head is [0x89, 0x50, 0x4E, 0x47] ? "image/png" : null;
    }

    /// <param name="Value">Minutes, mm or gloss units; left out where the kind has none.</param>
    /// <param name="Photo">By its hash, once it was brought in.</param>
    public sealed record Request(
        PersonName By, PaperCode Paper, BenchKind Kind, BenchVerdict Verdict, double? Value = null, string Note = "", string? Photo = null);

    public sealed record Done(PaperCode Paper);

    public sealed record NoSuchPaper(PaperCode Paper) : Refusal($"There is no paper {Paper}. Nothing was written down.");

    public sealed record NotAPhoto() : Refusal($"The photograph is no JPEG or PNG, or larger than {LargestPhoto / 1_000_000} MB. Nothing was written down.");

    public sealed record CannotBe() : Refusal($"A value is not below 0, and a note has at most {LongestNote} letters. Nothing was written down.");
}

using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Editions;

namespace Goodsheet.App.Editions;

/// <summary>Says whether a certificate is the room's own: its words against its signature, and its code against the register.</summary>
public sealed class VerifyCertificate(RoomStore room)
{
    /// <summary>Before the signature, where it follows the words as in a certificate's code.</summary>
    public const string SignatureWord = "Signature: ";

    private const int Longest = 4_000;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        if (request.Words.Length > Longest || request.Signature.Length > Longest)
        {
            return new TooLong();
        }

        await using var db = room.Open();
        var (words, signature) = Parts(request);
        var keys = await db.RegisterKeys.AsNoTracking().Select(k => k.Public).ToListAsync(cancel);
        if (!keys.Exists(key => RegisterSeal.Holds(key, words, signature)))
        {
            return new Forged();
        }

        var code = words.Split('\n')[^1].Replace("Register: ", "", StringComparison.Ordinal);
        var print = await db.NumberedPrints.AsNoTracking().SingleOrDefaultAsync(p => p.Code == code, cancel);
        var edition = print is null ? null : await db.Editions.AsNoTracking().SingleAsync(e => e.Number == print.Edition, cancel);
        return print is null || edition is null || CertificateText.Of(edition, print) != words ? new NotInTheRegister(code) : new Done(edition, print);
    }

    // What a phone reads from the code comes whole; what is typed comes in two fields.
    private static (string Words, string Signature) Parts(Request request)
    {
        var words = request.Words.ReplaceLineEndings("\n").Trim();
        var at = words.LastIndexOf($"\n{SignatureWord}", StringComparison.Ordinal);
        return at < 0 || request.Signature.Trim().Length > 0 ? (words, request.Signature) : (words[..at].Trim(), words[(at + 1 + SignatureWord.Length)..]);
    }

    /// <param name="Words">The signed words; with their signature on the last line, where the other is empty.</param>
    public sealed record Request(string Words, string Signature);

    public sealed record Done(Edition Edition, NumberedPrint Print);

    public sealed record TooLong() : Refusal($"A certificate has at most {Longest} letters.");

    public sealed record Forged() : Refusal("This certificate is not the room’s: its words and its signature do not belong together. One letter changed is enough.");
}

using System.CommandLine;
using Goodsheet.App;
using Goodsheet.App.Editions;
using Goodsheet.Room;
using Goodsheet.Room.Editions;

namespace Goodsheet.Cli.Editions;

/// <summary><c>edition</c>: verifies certificates.</summary>
public static class EditionVerb
{
    private const int MostBytes = 10_000;

    private static readonly Argument<FileInfo> Words = new("file") { Description = "What the certificate's code says, as text." };

    public static Command Create()
    {
        var verify = new Command("verify", "Says whether a certificate is the room's own.") { Words, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        verify.SetAction(async (line, cancel) =>
        {
            var file = line.GetRequiredValue(Words);
            return await line.GiveAsync(
                file is { Exists: true, Length: <= MostBytes } ? await VerifyAsync(line, file, cancel) : new NoFile(file.Name),
                done => new { done.Print.Code, Number = Numbering.Words(done.Edition, done.Print.Series, done.Print.Number), done.Edition.Title, done.Edition.Artist, Destroyed = done.Print.DestroyedAt is not null },
                done => $"{Numbering.Words(done.Edition, done.Print.Series, done.Print.Number)} of {done.Edition.Title} by {done.Edition.Artist} is in the register{(done.Print.DestroyedAt is null ? "." : ", recorded as destroyed: this certificate is void.")}");
        });
        return new("edition", "The register of editions.") { verify };
    }

    private static async Task<Outcome<VerifyCertificate.Done>> VerifyAsync(ParseResult line, FileInfo file, CancellationToken cancel)
    {
        var (store, _) = line.OpenRoom();
        await store.MigrateAsync(cancel);
        return await new VerifyCertificate(store).RunAsync(new(await File.ReadAllTextAsync(file.FullName, cancel), ""), cancel);
    }

    private sealed record NoFile(string Name) : Refusal($"{Name} is not here, or too long for a certificate.");
}

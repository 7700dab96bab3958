using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Papers;

/// <summary>Takes a paper into the room, on trial until it is proved.</summary>
public sealed partial class AddPaper(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var code = new PaperCode(NotInCode().Replace(request.Name.Trim().ToLowerInvariant(), "-").Trim('-'));
            if (code.Value.Length is 0 or > Request.LongestName)
            {
                return new NameDoesNotServe(request.Name);
            }

            if (request.Grammage is < 20 or > 2_000)
            {
                return new NotAGrammage(request.Grammage);
            }

            if (await db.Papers.AnyAsync(p => p.Code == code, cancel))
            {
                return new PaperIsKnown(request.Name);
            }

            db.Papers.Add(new()
            {
                Code = code,
                Name = request.Name.Trim(),
                Class = request.Class,
                Base = request.Base,
                Coat = request.Coat,
                CoatedSides = request.CoatedSides,
                Grammage = request.Grammage,
                Caliper = request.Caliper,
                BrightenerDeclared = request.Brightener,
                Feed = request.Feed,
                DryingHours = request.DryingHours,
            });
            return new Done(code);
        }, cancel);

    [GeneratedRegex("[^a-z0-9]+")]
    private static partial Regex NotInCode();

    public sealed record Request(
        string Name, PaperClass Class, PaperBase Base, Coat Coat, int CoatedSides, int Grammage, int? Caliper,
        Brightener? Brightener, Feed Feed, double DryingHours)
    {
        public const int LongestName = 60;
    }

    public sealed record Done(PaperCode Paper);

    public sealed record NameDoesNotServe(string Name) : Refusal($"A paper needs a name with letters or figures, at most {Request.LongestName}.");

    public sealed record NotAGrammage(int Grammage) : Refusal($"{Grammage} g/m2 cannot be. It is between 20 and 2000.");

    public sealed record PaperIsKnown(string Name) : Refusal($"The room already has a paper called {Name}.");
}

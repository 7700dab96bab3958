using System.Globalization;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Control;
using Goodsheet.Room.People;

namespace Goodsheet.App.Control;

/// <summary>Sets the limits of a set, or begins a new one. Strips taken from now on are held to it.</summary>
public sealed class ChangeTolerance(RoomStore room, TimeProvider clock)
{
    private const int LongestName = 40;
    private const int LongestSource = 200;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            var asked = new Tolerance { Name = request.Name.Trim(), Mean = request.Mean, Largest = request.Largest, White = request.White, Greys = request.Greys, Source = request.Source.Trim() };
            if (asked.Name.Length is 0 or > LongestName || asked.Source.Length > LongestSource || !asked.IsSound)
            {
                return new CannotBe();
            }

            if (await db.Tolerances.FindAsync([asked.Name], cancel) is { } set)
            {
                (set.Mean, set.Largest, set.White, set.Greys, set.Source) = (asked.Mean, asked.Largest, asked.White, asked.Greys, asked.Source);
            }
            else
            {
                db.Tolerances.Add(asked);
            }

            db.Decisions.Add(new()
            {
                Id = Guid.CreateVersion7(),
                About = $"tolerance {asked.Name}",
                What = string.Create(CultureInfo.CurrentCulture, $"mean {asked.Mean:0.0}, any patch {asked.Largest:0.0}, paper {asked.White:0.0}, greys {asked.Greys:0.0}"),
                Why = "the room's own limits",
                At = clock.GetUtcNow(),
                By = request.By,
            });
            return new Done(asked.Name);
        }, cancel);

    public sealed record Request(PersonName By, string Name, double Mean, double Largest, double White, double Greys, string Source = "");

    public sealed record Done(string Name);

    public sealed record CannotBe() : Refusal(
        $"A set wants a name of at most {LongestName} letters and limits above 0 and up to 20 dE00, that of one patch not below the mean’s. Nothing was changed.");
}

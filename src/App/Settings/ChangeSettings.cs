using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Settings;

namespace Goodsheet.App.Settings;

/// <summary>Says what the room is called, where its clock hangs, how it writes numbers, and when it is open.</summary>
public sealed class ChangeSettings(RoomStore room, RoomClock clock, RoomNumbers numbers)
{
    private const int Longest = 80;

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var name = request.Name.Trim();
        if (name.Length is 0 or > Longest || name.Any(char.IsControl))
        {
            return new NoName();
        }

        if (!TimeZoneInfo.TryFindSystemTimeZoneById(request.TimeZone, out _))
        {
            return new NoSuchZone(request.TimeZone);
        }

        if (NumberForm.All.All(f => f.Culture != request.Culture))
        {
            return new NoSuchForm();
        }

        if (request.Opens >= request.Closes)
        {
            return new ClosesBeforeItOpens(request.Opens, request.Closes);
        }

        var outcome = await room.ChangeAsync<Done>(async db =>
        {
            var settings = await db.Settings.SingleOrDefaultAsync(cancel);
            if (settings is null)
            {
                db.Settings.Add(settings = new());
            }

            (settings.Name, settings.TimeZone, settings.Culture, settings.Opens, settings.Closes) =
                (name, request.TimeZone, request.Culture, request.Opens, request.Closes);
            return new Done(settings);
        }, cancel);
        if (outcome.Granted)
        {
            clock.Take(request.TimeZone);
            numbers.Take(request.Culture);
        }

        return outcome;
    }

    /// <param name="TimeZone">An IANA name.</param>
    /// <param name="Culture">One of <see cref="NumberForm.All"/>.</param>
    public sealed record Request(string Name, string TimeZone, string Culture, TimeOnly Opens, TimeOnly Closes);

    public sealed record Done(RoomSettings Settings);

    public sealed record NoName() : Refusal($"A room’s name has 1 to {Longest} letters.");

    public sealed record NoSuchZone(string Zone) : Refusal($"No time zone is called “{Zone}”. Choose one of the list.");

    public sealed record NoSuchForm() : Refusal("Numbers are written in one of the ways in the list.");

    public sealed record ClosesBeforeItOpens(TimeOnly Opens, TimeOnly Closes) : Refusal(
        string.Create(CultureInfo.InvariantCulture, $"Open from {Opens:HH:mm} to {Closes:HH:mm} is no day: it closes after it opens."));
}

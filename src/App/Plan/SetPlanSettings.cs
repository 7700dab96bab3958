using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Plan;

/// <summary>Writes down what the plan counts with.</summary>
public sealed class SetPlanSettings(RoomStore room)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) => room.ChangeAsync<Done>(async db =>
    {
        var r = request;
        if (r.People is < 1 or > 50 || r.DryPlaces is < 0 or > 1_000 || r.WorkingDays is < 1 or > 127
            || new[] { r.MinutesPerPaperChange, r.MinutesPerLoad, r.MinutesPerHourLate, r.MinutesPerMl, r.MinutesWorthMoving, r.MinutesPerStrip }.Any(m => m is not (>= 0 and <= 10_000)))
        {
            return new CannotBe();
        }

        if (await db.PlanSettings.SingleOrDefaultAsync(cancel) is not { } settings)
        {
            db.PlanSettings.Add(settings = new());
        }

        (settings.People, settings.DryPlaces, settings.WorkingDays) = (r.People, r.DryPlaces, r.WorkingDays);
        (settings.MinutesPerPaperChange, settings.MinutesPerLoad, settings.MinutesWorthMoving) = (r.MinutesPerPaperChange, r.MinutesPerLoad, r.MinutesWorthMoving);
        (settings.MinutesPerHourLate, settings.MinutesPerMl) = (r.MinutesPerHourLate, r.MinutesPerMl);
        settings.MinutesPerStrip = r.MinutesPerStrip;
        return new Done();
    }, cancel);

    public async Task<PlanSettings> ShowAsync(CancellationToken cancel = default)
    {
        await using var db = room.Open();
        return await db.PlanSettings.AsNoTracking().SingleOrDefaultAsync(cancel) ?? new();
    }

    public sealed record Request(
        int People, int DryPlaces, int WorkingDays, double MinutesPerPaperChange, double MinutesPerLoad, double MinutesPerHourLate, double MinutesPerMl, double MinutesWorthMoving, double MinutesPerStrip);

    public sealed record Done;

    public sealed record CannotBe() : Refusal("At least one person works on at least one day, and minutes are 0 or more. Nothing was changed.");
}

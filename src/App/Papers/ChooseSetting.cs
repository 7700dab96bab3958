using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Profiles;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Papers;

/// <summary>Takes one printed test for how a paper is printed from now on: its printing condition begins, and its fingerprint says so.</summary>
public sealed class ChooseSetting(RoomStore room, TimeProvider clock)
{
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.SettingTrials.FindAsync([request.Trial], cancel) is not { } trial)
            {
                return new NoSuchTrial();
            }

            var (paper, printer) = (await db.Papers.FindAsync([trial.Paper], cancel), await db.Printers.FindAsync([trial.Printer], cancel));
            var now = clock.GetUtcNow();
            var condition = db.ConditionFor(paper!, printer!, trial.MediaSetting, request.By, now);
            var before = db.Fingerprints.Local.SingleOrDefault(f => f.Condition == condition.Code)
                ?? await db.Fingerprints.Where(f => f.Condition == condition.Code).OrderByDescending(f => f.Number).FirstAsync(cancel);
            var after = before with
            {
                Number = before.Number + 1,
                InkLoad = trial.InkLoad,
                PlatenGap = trial.PlatenGap,
                At = now,
                By = request.By,
                Changed = $"Chosen by a printed test: {trial.Setting}",
            };
            if (!after.IsAs(before))
            {
                db.Fingerprints.Add(after);
            }

            foreach (var other in await db.SettingTrials.Where(t => t.Paper == trial.Paper && t.Printer == trial.Printer && t.ChosenAt != null).ToListAsync(cancel))
            {
                other.ChosenAt = null;
            }

            trial.ChosenAt = now;
            return new Done(condition.Code, trial.Setting);
        }, cancel);

    public sealed record Request(PersonName By, Guid Trial);

    public sealed record Done(ConditionCode Condition, string Setting);

    public sealed record NoSuchTrial() : Refusal("There is no such test. Nothing was chosen.");
}

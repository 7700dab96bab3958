using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;

namespace Goodsheet.App.Papers;

/// <summary>Makes the trade's common practice for a class of paper the room's own, or puts it back.</summary>
public sealed class ChangeClassRule(RoomStore room, TimeProvider clock)
{
    private const int LongestText = 600;
    private const double MostDensity = 4;

    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        room.ChangeAsync<Done>(async db =>
        {
            if (await db.ClassRules.FindAsync([request.Class], cancel) is not { } rule)
            {
                return new NoSuchClass(request.Class);
            }

            var asked = request.Rule ?? Usual(request.Class);
            if (asked.LeastDMax is not (>= 0 and <= MostDensity) || ((string[])[asked.GoodAt, asked.BadAt, asked.Handling]).Any(t => t.Length > LongestText) || !Enum.IsDefined(asked.UsualFeed))
            {
                return new CannotBe();
            }

            (rule.Coat, rule.PigmentBronzes, rule.WarmBaseIsFine, rule.BrushBeforeFeeding) = (asked.Coat, asked.PigmentBronzes, asked.WarmBaseIsFine, asked.BrushBeforeFeeding);
            (rule.LeastDMax, rule.UsualFeed) = (asked.LeastDMax, asked.UsualFeed);
            (rule.GoodAt, rule.BadAt, rule.Handling) = (asked.GoodAt.Trim(), asked.BadAt.Trim(), asked.Handling.Trim());
            db.Decisions.Add(new()
            {
                Id = Guid.CreateVersion7(),
                About = $"class {request.Class}",
                What = request.Rule is null ? "back to the usual" : "rule changed",
                Why = request.Rule is null ? "common practice" : "the room's own way",
                At = clock.GetUtcNow(),
                By = request.By,
            });
            return new Done(request.Class);
        }, cancel);

    /// <summary>What the trade holds, as a new room starts with.</summary>
    public static ClassRule Usual(PaperClass paperClass) => TradeRules.New().Single(r => r.Class == paperClass);

    /// <param name="Rule">The room's own; none to go back to the usual.</param>
    public sealed record Request(PersonName By, PaperClass Class, ClassRule? Rule);

    public sealed record Done(PaperClass Class);

    public sealed record NoSuchClass(PaperClass Class) : Refusal($"There is no class {Class}.");

    public sealed record CannotBe() : Refusal($"A D-max lies between 0 and 4, and a text has at most {LongestText} letters. Nothing was changed.");
}

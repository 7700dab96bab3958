using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.Room.Runs;

/// <summary>Why a run is not begun unless a named person decides it.</summary>
/// <param name="Why">What is not right, in words for the person at the printer.</param>
/// <param name="Decided">What is decided when it goes on all the same; by these words the decision is known again.</param>
/// <param name="PrepareAgain">Making its files again would settle it.</param>
/// <param name="Strip">The print whose test strip it is about; none where it is about none.</param>
/// <param name="OfCondition">It is a change of the printing condition, which stops all its runs alike: they can be decided together.</param>
public sealed record RunStop(Refusal Why, string Decided, bool PrepareAgain = false, (int Order, int Line)? Strip = null, bool OfCondition = false);

/// <summary>A prepared file of a run, and the profile it was made with.</summary>
/// <param name="Title">Of the picture.</param>
/// <param name="Profile">None where the room does not know any more.</param>
public sealed record RunFile(string Title, Profile? Profile);

/// <summary>What has to be right before a run is begun, as it stands now.</summary>
/// <param name="Run">The run.</param>
/// <param name="Paper">Its paper.</param>
/// <param name="IsRoll">Whether the paper comes from a roll.</param>
/// <param name="Printer">Its printer.</param>
/// <param name="Profile">The profile it goes by.</param>
/// <param name="Then">The fingerprint of its printing condition when the profile was made, or last confirmed.</param>
/// <param name="Now">The fingerprint as it is.</param>
/// <param name="Files">What will be printed.</param>
/// <param name="Strips">The last test strip of each print, where it was made as the print is prepared now.</param>
/// <param name="Awaited">Prints that want a test strip looked at before they are begun.</param>
public sealed record RunFacts(
    Run Run, Paper Paper, bool IsRoll, Printer Printer, Profile Profile, Fingerprint? Then, Fingerprint? Now, IReadOnlyList<RunFile> Files, IReadOnlyList<TestStrip> Strips,
    IReadOnlyList<AwaitedStrip> Awaited);

/// <summary>Which runs may go to a printer: profile, black, feed, fingerprint and files are right.</summary>
public static class RunRules
{
    /// <summary>What stands in its way; empty when nothing does.</summary>
    public static IReadOnlyList<RunStop> Stops(RunFacts facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        var (run, profile) = (facts.Run, facts.Profile);
        var stops = new List<RunStop>();
        if (profile.Standing is not (Standing.Trusted or Standing.Due))
        {
            var standing = profile.Standing.ToString().ToLowerInvariant();
            stops.Add(new(
                new ProfileIsNotTrusted(profile.Number, profile.Standing, profile.StandingWhy), $"go on while profile {profile.Number} is {standing}",
                PrepareAgain: profile.Standing is Standing.Retired));
        }

        foreach (var others in facts.Files.Where(f => f.Profile is { } made && made.Number != profile.Number).GroupBy(f => f.Profile!.Number).OrderBy(g => g.Key))
        {
            var made = others.First().Profile!;
            stops.Add(new(
                new FilesOfAnotherProfile([.. others.Select(f => f.Title)], made.Number, made.Standing is Standing.Retired, profile.Number),
                $"go on with files of profile {made.Number} where the run goes by {profile.Number}", PrepareAgain: true));
        }

        if (facts is { Then: { } then, Now: { } now } && !now.IsAs(then))
        {
            stops.Add(new(
                new ConditionChanged(profile.Number, now.Changed ?? "what it was printed with"), $"go on though fingerprint {now.Number} came after profile {profile.Number} was confirmed",
                OfCondition: true));
        }

        stops.AddRange(facts.Strips.Where(s => s.Says is StripSays.Change).Select(s => new RunStop(
            new StripSaysChange(s.Order, s.Line, s.Number, s.Why), $"go on though test strip {s.Number} of print {s.Order}/{s.Line} says change", Strip: (s.Order, s.Line))));
        stops.AddRange(facts.Awaited
            .Where(a => a.Wait is not StripWait.Nothing && !facts.Strips.Any(s => (s.Order, s.Line, s.Says) == (a.Order, a.Line, StripSays.Change)))
            .Select(a => new RunStop(
                new StripNotLookedAt(a.Order, a.Line, a.Title, a.Wait), $"go on though no test strip of print {a.Order}/{a.Line} was looked at", Strip: (a.Order, a.Line))));

        var wants = facts.Paper.BlackFor(facts.Printer.Inks);
        if (run.Black != wants)
        {
            stops.Add(new(new WrongBlack(facts.Paper.Name, wants, run.Black), $"go on with {HandlingAdvice.BlackWords(run.Black)} on {facts.Paper.Name}"));
        }

        var feed = facts.Paper.FeedFrom(facts.IsRoll);
        if (!facts.Printer.Feeds(feed))
        {
            stops.Add(new(new NoFeedPath(facts.Printer.Name, facts.Paper.Name, feed), $"go on though {facts.Printer.Name} does not feed {HandlingAdvice.FeedWords(feed)}"));
        }

        return stops;
    }

    public sealed record ProfileIsNotTrusted(int Profile, Standing Standing, string Why)
        : Refusal($"Profile {Profile} of this run is {Standing.ToString().ToLowerInvariant()}{(Why.Length > 0 ? $": {Why.TrimEnd('.')}" : "")}.{(Standing is Standing.Retired ? " Prepare the files again with the profile that took its place." : "")}");

    public sealed record FilesOfAnotherProfile(IReadOnlyList<string> Titles, int Made, bool IsRetired, int Profile) : Refusal(
        $"The file of “{string.Join("”, “", Titles)}” was made with profile {Made}{(IsRetired ? ", which is retired" : "")}; this run goes by profile {Profile}. Prepare it again.");

    public sealed record ConditionChanged(int Profile, string What)
        : Refusal($"It is not printed any more as profile {Profile} was made: {What}. Read a strip first; one that stands where strips usually do settles it.");

    public sealed record StripSaysChange(int Order, int Line, int Strip, string Why)
        : Refusal($"Test strip {Strip} of order {Order}, print {Line}, says change: {Why.TrimEnd('.')}. The print is as it was. Change it and prepare it again.");

    public sealed record StripNotLookedAt(int Order, int Line, string Title, StripWait Wait) : Refusal(
        $"“{Title}” of order {Order} wants a test strip first: {(Wait switch { StripWait.ToMake => "none is made of it as it is now. Make one, print it and look at it.", StripWait.ToPrint => "it is made and not printed yet. Print it and look at it.", _ => "it is printed. Look at it, and say whether it goes on." })}");

    public sealed record WrongBlack(string Paper, BlackInk Wants, BlackInk Has)
        : Refusal($"{Paper} takes {HandlingAdvice.BlackWords(Wants)}, and this run prints with {HandlingAdvice.BlackWords(Has)}: blacks come out weak and greyish, or do not dry.");

    public sealed record NoFeedPath(string Printer, string Paper, Feed Feed)
        : Refusal($"{Printer} does not feed {HandlingAdvice.FeedWords(Feed)}, and {Paper} goes no other way. Print it on another printer.");
}

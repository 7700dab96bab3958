using Goodsheet.App.Profiles;
using Goodsheet.Colour.Icc;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Opening;

/// <summary>Profiles the room had before: each becomes a new profile of its printing condition, to be checked before it is trusted.</summary>
internal static class OpeningProfiles
{
    private const int LongestText = 120;

    public static (LineState, string) Profile(OpeningPass pass, OpeningFile.Row row, Dictionary<string, string> hashes)
    {
        var fields = new OpeningFields(row, pass.Mark);
        var name = fields.Text("file", LongestText);
        pass.Named.Add(name);
        var (printer, paper) = (pass.Printer(fields.Text("printer", LongestText)), pass.Paper(fields.Text("paper", LongestText)));
        var media = fields.Text("media_setting", LongestText, needed: false);
        pass.Once($"{printer.Code}|{paper.Code}|{media}", row.Line);
        if (!pass.Beside.TryGetValue(name, out var path))
        {
            throw new LineIsWrongException($"the file {name} did not come with the lists");
        }

        var read = IccProfile.Read(File.ReadAllBytes(path));
        if (read.Profile is not { } profile)
        {
            throw new LineIsWrongException($"{name} is no profile that can be read");
        }

        if (profile.Header.Class is not ProfileClass.Output || profile.FromPcs(RenderingIntent.RelativeColorimetric) is null)
        {
            throw new LineIsWrongException($"{name} is no profile of a printer");
        }

        var hash = hashes.GetValueOrDefault(name, "");
        var condition = pass.Db.ConditionFor(paper, printer, media, pass.Wish.By, pass.Wish.At);
        var before = pass.Db.Profiles.Where(p => p.Condition == condition.Code).ToList();
        if (hash.Length > 0 && before.Any(p => p.FileHash == hash))
        {
            return (LineState.Known, $"{name} is in the room already");
        }

        pass.Db.Profiles.Add(new()
        {
            Number = pass.NextProfile++,
            Condition = condition.Code,
            Version = before.Select(p => p.Version).DefaultIfEmpty(0).Max() + 1,
            Name = profile.Description.Length > 0 ? profile.Description : Path.GetFileNameWithoutExtension(name),
            FileHash = hash,
            MadeAt = pass.Wish.At,
            By = pass.Wish.By,
            Standing = Standing.New,
            StandingWhy = "brought in on opening day: nobody here has measured it yet; read a strip or chart before you trust it",
        });
        return (LineState.Fine, $"{name} for {paper.Name} on {printer.Name}");
    }
}

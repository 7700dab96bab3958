using System.CommandLine;
using System.Text;
using Goodsheet.App;
using Goodsheet.App.Documents;
using Goodsheet.App.Profiles;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;
using Goodsheet.Room;

namespace Goodsheet.Cli.Profiles;

/// <summary>What a profile is worth, as PDF and as CSV; and <c>profile worth</c>, which takes it from a room.</summary>
internal static class WorthFiles
{
    public static readonly Option<FileInfo?> Pdf = new("--pdf") { Description = "Write what it is worth as PDF, with its plots." };

    public static readonly Option<FileInfo?> Csv = new("--csv") { Description = "Write every figure, and every point of the plots, as CSV." };

    private static readonly Argument<int> Number = new("NUMBER") { Description = "The profile's number in the room." };

    public static Command Worth()
    {
        var worth = new Command("worth", "Says what a profile of the room is worth.") { Number, Pdf, Csv, RoomOption.Room, RoomOption.Postgres, Answer.Json };
        worth.SetAction(WorthAsync);
        return worth;
    }

    /// <summary>Writes what was asked for; nothing otherwise.</summary>
    public static async Task WriteAsync(ParseResult line, string title, string how, WorthRecord worth, byte[] icc, CancellationToken cancel)
    {
        var shape = (line.GetValue(Pdf) ?? line.GetValue(Csv)) is not null && IccProfile.Read(icc).Profile is { } profile ? ShowGamut.ShapeOf(new ProfilePrinter(profile)) : null;
        await WriteAsync(line, worth, shape, () => WorthPages.Draw(title, how, worth, shape, ""), cancel);
    }

    /// <summary>Whole under its name, or not at all.</summary>
    public static async Task WholeAsync(string path, byte[] bytes, CancellationToken cancel)
    {
        var coming = $"{Path.GetFullPath(path)}.coming";
        await File.WriteAllBytesAsync(coming, bytes, cancel);
        File.Move(coming, path, overwrite: true);
    }

    private static async Task<int> WorthAsync(ParseResult line, CancellationToken cancel)
    {
        var (store, files) = line.OpenRoom();
        await store.MigrateAsync(cancel);
        var number = line.GetRequiredValue(Number);
        var found = await new ShowProfiles(store).OneAsync(number, cancel);
        var worth = found is null ? null : ShowProfiles.WorthOf(found.Profile);
        if (worth is not null)
        {
            var document = line.GetValue(Pdf) is null ? null : await new WorthDocument(store, files).RunAsync(number, cancel);
            await WriteAsync(line, worth, await new ShowGamut(store, files).RunAsync(number, cancel), () => document!.Value!, cancel);
        }

        return await line.GiveAsync(
            worth is null ? (Outcome<WorthRecord>)new DecideProfile.NoSuchProfile(number) : worth, w => w,
            w => $"{found!.Profile.Name}, {found.Profile.Standing.ToString().ToLowerInvariant()}\n{w.Verdict}. {w.Advice}\n{string.Join('\n', w.Better.Concat(w.Rows().Select(r => $"{r.On}: mean {r.Errors.Mean:0.00}, p95 {r.Errors.P95:0.00}, worst {r.Errors.Max:0.0} dE00")))}");
    }

    private static async Task WriteAsync(ParseResult line, WorthRecord worth, ShowGamut.Shape? shape, Func<Document> draw, CancellationToken cancel)
    {
        if (line.GetValue(Pdf) is { } pdf)
        {
            await WholeAsync(pdf.FullName, draw().Pdf, cancel);
        }

        if (line.GetValue(Csv) is { } csv)
        {
            await WholeAsync(csv.FullName, Encoding.UTF8.GetBytes(WorthCsv.Of(worth)), cancel);
            if (shape is not null)
            {
                await WholeAsync($"{Path.ChangeExtension(csv.FullName, null)}-gamut.csv", Encoding.UTF8.GetBytes(WorthCsv.Of(shape)), cancel);
            }
        }
    }
}

using Microsoft.EntityFrameworkCore;
using PdfSharp.Pdf;
using Goodsheet.App.Documents;
using Goodsheet.App.Storage;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>What a profile is worth, as a document to keep with the paper.</summary>
public sealed class WorthDocument(RoomStore room)
{
    private static readonly double[] Columns = [120, 145, 170];

    public async Task<Outcome<Document>> RunAsync(int number, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var profile = await db.Profiles.AsNoTracking().SingleOrDefaultAsync(p => p.Number == number, cancel);
        return profile is null || ShowProfiles.WorthOf(profile) is not { } worth ? new DecideProfile.NoSuchProfile(number)
            : Draw($"Profile {number}: {profile.Name}", $"made {profile.MadeAt:yyyy-MM-dd} by {profile.By}, {profile.Standing.ToString().ToLowerInvariant()}: {profile.StandingWhy}", worth, $"profile-{number}.pdf");
    }

    private static Document Draw(string title, string how, WorthRecord worth, string file)
    {
        using var document = new PdfDocument();
        document.Info.Title = title;
        using (var flow = new Flow(document, title, title))
        {
            flow.Leaf.TypeFitted(worth.Verdict, Flow.Left, flow.Y, Flow.Width, Face.Strong, 9, 6);
            flow.Y += 12;
            flow.Words(worth.Advice, 4.2);
            flow.Words($"{title}, {how}");
            flow.Rule(0.4);
            foreach (var better in worth.Better)
            {
                flow.Words($"Would make it better: {better}");
            }

            flow.Heading("How far off, dE00");
            Row(flow, Face.Strong, "", "mean", "p95", "worst");
            foreach (var (name, f) in worth.Rows())
            {
                Row(flow, Face.Text, name, $"{f.Mean:0.00}", $"{f.P95:0.00}", $"{f.Max:0.0}");
            }

            flow.Y += 2;
            flow.Words($"Paper white L* {worth.White[0]:0.0}, black L* {worth.Black[0]:0.0}{(worth.Gamut is { } g ? $", gamut {g.Volume:N0} cubic dE*ab, give or take {g.Error:N0}" : "")}.");
            flow.Heading("Worst patches");
            Row(flow, Face.Strong, "patch, ink values", "measured", "foretold", "dE00");
            foreach (var p in worth.Worst)
            {
                Row(flow, Face.Text, $"{p.Id}   {string.Join(' ', p.Device.Select(d => $"{d * 100:0}"))}", Lab(p.Measured), Lab(p.Foretold), $"{p.Error:0.00}");
            }
        }

        return Document.Of(document, file);
    }

    private static void Row(Flow flow, Face face, string name, params string[] cells)
    {
        flow.Room(5);
        flow.Leaf.TypeFitted(name, Flow.Left, flow.Y, 76, face, 3.4, 2.6);
        for (var i = 0; i < cells.Length; i++)
        {
            flow.Leaf.TypeRight(cells[i], Columns[i], flow.Y, face, 3.2);
        }

        flow.Y += 4.6;
    }

    private static string Lab(double[] lab) => $"{lab[0]:0} {lab[1]:0} {lab[2]:0}";
}

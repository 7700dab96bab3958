using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PdfSharp.Pdf;
using Goodsheet.App.Files;
using Goodsheet.App.Orders;
using Goodsheet.App.Storage;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Documents;

/// <summary>A letter to a supplier about paper that was not right: what, which lot, what is asked for, and the photographs.</summary>
/// <remarks>The client and the picture are not named in it, unless the complaint's own words do.</remarks>
public sealed class ClaimLetter(RoomStore store, FileShelf files, TimeProvider clock)
{
    private const double PhotographHeight = 112, Caption = 6;
    private const int LongSide = 1_600; // pixels: a crease is seen on paper, too

    public async Task<Outcome<Document>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = store.Open();
        if (await ShowClaim.OfAsync(db, request.Complaint, cancel) is not { } claim)
        {
            return new NoSuchComplaint(request.Complaint);
        }

        var room = (await db.Settings.AsNoTracking().SingleOrDefaultAsync(cancel))?.Name ?? "";
        var photographs = await Task.Run(() => claim.Complaint.Photographs.Where(files.Has).Select(p => Thumbnail.Jpeg(files.PathOf(p), LongSide)).OfType<byte[]>().ToArray(), cancel);
        return Draw(claim, request, room, photographs, clock.GetLocalNow());
    }

    private static Outcome<Document> Draw(ShowClaim.Page claim, Request request, string room, byte[][] photographs, DateTimeOffset now)
    {
        if (claim.Suppliers.FirstOrDefault(s => s.Code == request.Supplier) is not { } supplier)
        {
            return new NoteClaim.WhichSupplier();
        }

        if (request.Asks.Trim().Length is 0 or > OrderLog.LongestText)
        {
            return new SayWhy("What is asked for?");
        }

        var made = claim.Made.FirstOrDefault(m => m.Lot.Code == request.Lot);
        var subject = made is null ? claim.Paper.Name : $"{claim.Paper.Name}, {made.Lot.Format}";
        using var document = new PdfDocument();
        document.Info.Title = $"Claim about {subject}";
        using (var flow = new Flow(document, $"{room}, claim about {subject}, {Day(now)}", $"Claim about {subject}, continued"))
        {
            flow.Leaf.Type("Claim", Flow.Left, flow.Y, Face.Strong, 7);
            var (y, right) = (flow.Y, Flow.Right);
            foreach (var (words, face) in ((string, Face)[])[(room, Face.Strong), ($"to {supplier.Name}", Face.Text), (supplier.Email, Face.Text), (Day(now), Face.Text)])
            {
                if (words.Length > 0)
                {
                    flow.Leaf.TypeRight(words, right, y, face, 4.2);
                    y += 5.6;
                }
            }

            flow.Y = Math.Max(flow.Y + 13, y + 4);
            flow.Rule(0.9);
            flow.Heading(subject);
            foreach (var (what, says) in Facts(claim, made, request.Pieces, now.Offset))
            {
                flow.Room(6);
                flow.Leaf.Type(what, Flow.Left, flow.Y, Face.Text, 3.4);
                flow.Leaf.TypeFitted(says, Flow.Left + 52, flow.Y, Flow.Width - 52, Face.Strong, 3.4, 2.6);
                flow.Y += 5.4;
            }

            flow.Y += 4;
            flow.Heading("What is wrong");
            flow.Words(Sentence(claim.Complaint.What), 3.8);
            if (photographs.Length > 0)
            {
                flow.Words(photographs.Length == 1 ? "A photograph of it follows." : $"{photographs.Length} photographs of it follow.");
            }

            flow.Y += 2;
            flow.Heading("What we ask for");
            flow.Words(Sentence(request.Asks.Trim()), 3.8);
            flow.Room(26);
            flow.Y += 18;
            flow.Leaf.Line(Flow.Left, flow.Y, Flow.Left + 75, flow.Y);
            flow.Y += 2;
            flow.Leaf.Type($"For {room}", Flow.Left, flow.Y, Face.Text, 3);
            flow.Y += 10;
            for (var i = 0; i < photographs.Length; i++)
            {
                flow.Room(PhotographHeight + Caption + 4);
                flow.Leaf.Type($"Photograph {i + 1} of {photographs.Length}", Flow.Left, flow.Y, Face.Text, 3.2);
                flow.Leaf.Picture(photographs[i], Flow.Left, flow.Y + Caption, Flow.Width, PhotographHeight);
                flow.Y += PhotographHeight + Caption + 6;
            }
        }

        return Document.Of(document, $"claim-{claim.Complaint.Number}.pdf");
    }

    private static IEnumerable<(string What, string Says)> Facts(ShowClaim.Page claim, ShowClaim.Made? made, int pieces, TimeSpan offset)
    {
        if (made is { Lot: var lot })
        {
            yield return ("Number on the box", lot.MakersNumber ?? "not written down");
            yield return ("Received", lot.Received.ToString("d MMMM yyyy", CultureInfo.CurrentCulture));
            if (lot.BestBefore is { } until)
            {
                yield return ("Best before", until.ToString("d MMMM yyyy", CultureInfo.CurrentCulture));
            }

            yield return ("Printed", Day(made.At.ToOffset(offset)));
        }

        if (pieces > 0)
        {
            yield return ("Sheets or prints concerned", pieces.ToString(CultureInfo.CurrentCulture));
        }

        yield return ("Reported to us", $"{Day(claim.Complaint.At.ToOffset(offset))}{(claim.Complaint.CameBack ? "; the print is here again" : "")}");
        yield return ("Our numbers", $"complaint {claim.Complaint.Number}, order {claim.Complaint.Order}{(made is null ? "" : $", lot {made.Lot.Code}, run {made.Run}")}");
    }

    private static string Day(DateTimeOffset day) => day.ToString("d MMMM yyyy", CultureInfo.CurrentCulture);

    private static string Sentence(string words) => words.Length == 0 ? words
        : $"{char.ToUpper(words[0], CultureInfo.CurrentCulture)}{words[1..]}{(char.IsPunctuation(words[^1]) ? "" : ".")}";

    /// <param name="Lot">Which of the lots; none where it is not known.</param>
    /// <param name="Pieces">Sheets or prints concerned; 0 leaves it out.</param>
    /// <param name="Asks">What is asked for.</param>
    public sealed record Request(int Complaint, SupplierCode Supplier, LotCode? Lot, int Pieces, string Asks);
}

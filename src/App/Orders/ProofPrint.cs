using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Orders;

/// <summary>Shows on screen what a print will look like, through the very tables it will be printed with.</summary>
public sealed class ProofPrint(RoomStore room, FileShelf files, ScreenCopies copies)
{
    private const int MostPapers = 12;
    private const int LargeSide = 1_200; // pixels
    private const int SmallSide = 640;

    /// <summary>The picture for the screen, a JPEG in sRGB.</summary>
    public async Task<Outcome<ProofPicture>> RunAsync(Request request, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var line = await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == request.Order && l.Line == request.Line, cancel);
        if (line is null)
        {
            return new NoSuchPrint(request.Order, request.Line);
        }

        var best = request.AsItCame ? null : await PreparePrint.ProfileForAsync(db, request.Paper ?? line.Paper, cancel);
        if (!request.AsItCame && (best is null || !files.Has(best.Value.Profile.FileHash)))
        {
            return new NothingToProofWith(request.Paper ?? line.Paper);
        }

        var copy = await copies.OfAsync(line.ImageHash, cancel);
        if (!copy.Granted)
        {
            return copy.Refusal;
        }

        var printer = IccProfile.Read(best is var (profile, _) ? await File.ReadAllBytesAsync(files.PathOf(profile.FileHash), cancel) : BuiltInProfiles.SRgb()).Profile!;
        var options = new ProofOptions
        {
            Intent = (RenderingIntent)(int)(request.Intent ?? line.Intent),
            BlackPointCompensation = line.BlackPointCompensation,
            PaperWhite = request.PaperWhite,
            Hatch = request.Hatch,
            AsItCame = request.AsItCame,
            Shape = request.AsItCame ? null : line.Width.Millimetres / line.Height.Millimetres,
            LongestSide = request.Small ? SmallSide : LargeSide,
            Jpeg = true,
        };
        var made = await Task.Run(() => ProofPicture.Render(copy.Value, printer, options), cancel);
        return made.Value is { } picture ? picture : new CannotBeProofed(made.Fault!.Message);
    }

    /// <summary>What the page says around the picture.</summary>
    public async Task<Page?> PageAsync(int order, int line, CancellationToken cancel = default)
    {
        await using var db = room.Open();
        var print = await db.PrintLines.AsNoTracking().SingleOrDefaultAsync(l => l.Order == order && l.Line == line, cancel);
        if (print is null)
        {
            return null;
        }

        var papers = await db.Papers.AsNoTracking().Where(p => p.LineUp == LineUp.In || p.Code == print.Paper).OrderBy(p => p.Name).ToListAsync(cancel);
        var sides = new List<Side>();
        foreach (var paper in papers.OrderByDescending(p => p.Code == print.Paper))
        {
            if (sides.Count < MostPapers && await PreparePrint.ProfileForAsync(db, paper.Code, cancel) is var (profile, _))
            {
                sides.Add(new(paper, profile));
            }
        }

        var findings = await db.Findings.AsNoTracking().Where(f => f.Order == order && f.Line == line).ToListAsync(cancel);
        return new(print, papers.Single(p => p.Code == print.Paper), sides, [.. findings.Where(f => PrintCheck.OfPixelsKinds.Contains(f.Kind))]);
    }

    /// <param name="Paper">Another paper than the one ordered.</param>
    /// <param name="Intent">Another intent than the one ordered.</param>
    /// <param name="PaperWhite">With the paper's own white and black, or as an eye sees it that has grown used to them.</param>
    /// <param name="Hatch">What is not held is hatched.</param>
    /// <param name="AsItCame">The picture itself, whole, not its print.</param>
    /// <param name="Small">For a page that has more to show.</param>
    public sealed record Request(int Order, int Line, PaperCode? Paper, Intent? Intent, bool PaperWhite, bool Hatch, bool AsItCame, bool Small = false);

    /// <param name="Sides">The papers that have a profile to proof with, the one ordered first when it has.</param>
    /// <param name="Findings">What was seen in the pixels.</param>
    public sealed record Page(PrintLine Print, Paper Paper, IReadOnlyList<Side> Sides, IReadOnlyList<Finding> Findings);

    public sealed record Side(Paper Paper, Profile Profile);

    public sealed record NoSuchPrint(int Order, int Line) : Refusal($"There is no print {Order}/{Line}.");

    public sealed record NothingToProofWith(PaperCode Paper) : Refusal($"{Paper} has no trusted profile: nobody can say how the print will look.");

    public sealed record CannotBeProofed(string Why) : Refusal(Why);
}

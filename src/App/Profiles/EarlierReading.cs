using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Papers;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Control;
using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Profiles;

/// <summary>The last chart of the same printing condition, read in the same M-condition: another paper or another black shows beside it at once.</summary>
internal sealed record EarlierReading(int Number, LotCode? Lot, PaperFigures? Figures, MeasurementSet? Set)
{
    private const double OtherPaper = 3; // dE00 of the bare paper: lots of one paper lie nearer (common practice, no source)

    public static async Task<EarlierReading?> OfAsync(RoomDb db, FileShelf files, ConditionCode condition, MCondition read, CancellationToken cancel)
    {
        var word = ChartReading.Stored(read);
        var before = await db.Readings.AsNoTracking().Where(r => r.Condition == condition && r.MCondition == word && !r.OverBlack && r.Figures != null)
            .OrderByDescending(r => r.Number).FirstOrDefaultAsync(cancel);
        if (before is null)
        {
            return null;
        }

        var file = files.Has(before.FileHash) ? await ChartReading.ReadAsync(files.PathOf(before.FileHash), cancel, ChartReading.ConditionOf(before.MCondition)) : null;
        return new(before.Number, before.Lot, PaperLook.Read(before.Figures), file is { Granted: true } ? file.Value.Set : null);
    }

    /// <summary>In words, where the bare paper is another.</summary>
    public string? White(PaperFigures now) =>
        Figures?.White is { } then && now.White is { } white && CieDe2000.Between(then, white).Value is var moved && moved > OtherPaper
            ? $"The bare paper is {moved:0.0} dE00 from reading {Number} of the same printing condition: another paper, the other side, or another lot? Look at the label."
            : null;

    /// <summary>In words, where the black is another and the other inks stand.</summary>
    public string? Black(MeasurementSet now) => Set is not null && BlackCheck.Of(Set, now) is { Wrong: true } black
        ? $"Its black has a density of {black.Now:0.00} where reading {Number} had {black.Then:0.00}, and the other inks stand: the other black was in. Print the chart again with the right one."
        : null;
}

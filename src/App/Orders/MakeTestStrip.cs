using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Files;
using Goodsheet.App.Printing;
using Goodsheet.App.Storage;
using Goodsheet.App.Work;
using Goodsheet.Room;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Orders;

/// <summary>Makes a test strip of a print in full size, prepared as the whole would be, as long work. About: see <see cref="About"/>.</summary>
public sealed class MakeTestStrip(RoomStore room, FileShelf files, TimeProvider clock) : LongWork(room)
{
    private static readonly Length Least = Length.FromMillimetres(10);
    private static readonly Length Most = Length.FromMillimetres(600);

    /// <summary>"Test strip X Y WIDTH HEIGHT in mm, KIND, of print ORDER/LINE".</summary>
    public static Outcome<string> About(PrintLine print, Length x, Length y, Length width, Length height, PlaceKind place) =>
        width < Least || height < Least || width > Most || height > Most ? new StripSize()
        : x < Length.Zero || y < Length.Zero || x + Least > print.Width || y + Least > print.Height || !Enum.IsDefined(place) ? new OutsideThePrint()
        : string.Create(CultureInfo.InvariantCulture, $"Test strip {x.Millimetres} {y.Millimetres} {width.Millimetres} {height.Millimetres} {(int)place} of print {print.Order}/{print.Line}");

    protected override async Task<string> RunAsync(string about, Func<int, Task> tell, CancellationToken cancel)
    {
        var numbers = about.Split(' ')[2..7].Select(n => decimal.Parse(n, CultureInfo.InvariantCulture)).ToArray();
        var (order, line) = PrintNow.Of(about);
        await using var db = Room.Open();
        if (await PrintNow.LoadAsync(db, order, line, cancel) is not { } print)
        {
            return PrintNow.NoProfile;
        }

        var number = (await db.TestStrips.Where(s => s.Order == order && s.Line == line).MaxAsync(s => (int?)s.Number, cancel) ?? 0) + 1;
        var (x, y) = (Length.FromMillimetres(numbers[0]), Length.FromMillimetres(numbers[1]));
        var (width, height) = (Smaller(Length.FromMillimetres(numbers[2]), print.Line.Width - x), Smaller(Length.FromMillimetres(numbers[3]), print.Line.Height - y));
        var profile = await File.ReadAllBytesAsync(files.PathOf(print.With.Profile.FileHash), cancel);
        var output = files.NewPath(".tif");
        var says = string.Create(CultureInfo.InvariantCulture, $"Test strip {number} of order {order} print {line} - {print.Line.Width.Millimetres:0.#} by {print.Line.Height.Millimetres:0.#} mm at {x.Millimetres:0.#} {y.Millimetres:0.#} - {print.Paper.Name} - profile {print.With.Profile.Number} {print.Line.Intent} - {clock.Today():yyyy-MM-dd}");
        var made = TestStripFile.Write(
            new(files.PathOf(print.Line.ImageHash), profile, print.Recipe, x.Millimetres, y.Millimetres, width.Millimetres, height.Millimetres, says, output),
            new PrintFiles(Room, files, clock).Told(p => tell((int)(95 * p))), files.Disk, cancel);
        if (made.Fault is { } fault)
        {
            return fault.Message;
        }

        var kept = await files.KeepMadeAsync(output, cancel);
        db.TestStrips.Add(new()
        {
            Order = order,
            Line = line,
            Number = number,
            X = x,
            Y = y,
            Width = width,
            Height = height,
            Place = (PlaceKind)(int)numbers[4],
            Profile = print.With.Profile.Number,
            Recipe = RecipeText.Of(print.With.Profile.Number, print.Recipe),
            FileHash = kept.Hash,
            At = clock.GetUtcNow(),
            By = AskedBy,
        });
        await db.SaveChangesAsync(cancel);
        return $"Test strip {number} is made, {width.Millimetres:0.#} × {height.Millimetres:0.#} mm of the print as it will be. Print it on {print.Paper.Name} without colour management in the driver, at 100 %.";
    }

    private static Length Smaller(Length one, Length other) => one < other ? one : other;

    public sealed record StripSize() : Refusal($"A test strip is {Least.Millimetres:0} to {Most.Millimetres:0} mm wide and high. Nothing was made.");

    public sealed record OutsideThePrint() : Refusal("That place lies outside the print. Nothing was made.");
}

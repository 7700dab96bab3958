using Goodsheet.App.Files;
using Goodsheet.App.Profiles;
using Goodsheet.App.Storage;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Papers;
using Goodsheet.Room;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;

namespace Goodsheet.App.Papers;

/// <summary>Writes down a printed test of how a paper is to be printed: how the driver stood, what was read of it, what was seen.</summary>
public sealed class NoteSettingTrial(RoomStore room, FileShelf files, TimeProvider clock)
{
    private const int Longest = 60;
    private const int LongestNote = 300;
    private const int MostInk = 100; // per cent

    public async Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var (media, gap, note) = (request.MediaSetting.Trim(), request.PlatenGap.Trim(), request.Note.Trim());
        if (media.Length is 0 or > Longest || gap.Length > Longest || note.Length > LongestNote || request.InkLoad is < -MostInk or > MostInk || ((int)request.Seen & ~15) != 0)
        {
            return new CannotBe();
        }

        PaperFigures? figures = null;
        if (request.FileHash is { } hash)
        {
            if (!files.Has(hash))
            {
                return new NoSuchFile(request.FileName);
            }

            var read = await ChartReading.ReadAsync(files.PathOf(hash), cancel);
            if (!read.Granted)
            {
                return read.Refusal;
            }

            var set = read.Value.Set!;
            figures = await Task.Run(() => PaperFigures.Of(set, cancel), cancel);
            if (!HasBlack(set))
            {
                return new NoBlack();
            }
        }

        return await room.ChangeAsync<Done>(async db =>
        {
            if (await db.Papers.FindAsync([request.Paper], cancel) is null || await db.Printers.FindAsync([request.Printer], cancel) is null)
            {
                return new BringInReading.NotInThisRoom();
            }

            var trial = new SettingTrial
            {
                Id = Guid.CreateVersion7(clock.GetUtcNow()),
                Paper = request.Paper,
                Printer = request.Printer,
                MediaSetting = media,
                InkLoad = request.InkLoad,
                PlatenGap = gap,
                Seen = request.Seen,
                Note = note,
                FileHash = request.FileHash,
                DMax = figures?.DMax,
                Solids = figures?.Solids,
                StepsBack = figures?.StepsBack,
                Grain = figures?.Grain,
                At = clock.GetUtcNow(),
                By = request.By,
            };
            db.SettingTrials.Add(trial);
            return new Done(trial.Id);
        }, cancel);
    }

    private static bool HasBlack(MeasurementSet set) => set.Patches.Any(p => set.Space is DeviceSpace.Cmyk ? p.Device[^1] == 1 : p.Device.All(d => d == 0));

    /// <param name="InkLoad">More or less ink than the setting lays by itself, in per cent.</param>
    /// <param name="FileHash">The measurement of the printed test; none where it was only looked at.</param>
    public sealed record Request(
        PersonName By, PaperCode Paper, PrinterCode Printer, string MediaSetting, int InkLoad, string PlatenGap, TestFaults Seen, string Note = "",
        string? FileHash = null, string FileName = "");

    public sealed record Done(Guid Trial);

    public sealed record CannotBe() : Refusal(
        $"A test names its media setting in at most {Longest} letters, and an ink load between −{MostInk} and {MostInk} %. Nothing was written down.");

    public sealed record NoBlack() : Refusal("The measurement has no patch of full black, by which ink loads are told apart. Nothing was written down.");
}

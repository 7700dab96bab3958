using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;
using Goodsheet.Tests.Shared;

namespace Goodsheet.Bench.Colour;

/// <summary>Finished profiles against patches they were not made from, read back through Little CMS 2: mean / 95th percentile / largest of dE00:
/// <c>unseen [FOLDER [M0]]</c>.</summary>
internal static class UnseenBench
{
    private const string Folder = "../shared/data/measurements";

    public static int Run(string[] args)
    {
        var folder = Folder;
        var rows = args;
        if (!Directory.Exists(folder))
        {
            Console.WriteLine($"{folder} is not here: nothing measured.");
            return 0;
        }

        MeasurementSet Read(string file) => MeasurementFile.Read(File.ReadAllBytes($"{folder}/{file}")).Set!;
        Console.WriteLine("| made from -> judged on, through the finished profile | mean / p95 / max |\n|---|---|");
        foreach (var light in args is [_, var one, ..] ? [one] : (string[])["M0", "M2"])
        {
            var (c1, a, gloss) = (Read($"rgb-inkjet/matte_C1_1019_{light}.txt"), Read($"rgb-inkjet/matte_A_2420_{light}.txt"), Read($"rgb-inkjet/glossy_680_6mm_{light}.txt"));
            var small = ModelBench.Design(c1, 343);
            Show($"343 of C1 -> the others, {light}", Errors([small], ModelBench.Without(c1, small)));
            Greys($"greys by halves inside the 343, dCh, mean / - / largest, {light}", small);
            Seeds($"gloss, 80 % -> 20 %, mean over seeds 0 to 9 / same / median worst, {light}", gloss);
            Days(light, a, c1);
        }

        foreach (var file in (string[])["FOGRA39L", "TR006"])
        {
            var set = Read($"cmyk/{file}.txt");
            Show($"{file}, half -> half, both ways", Enumerable.Range(0, 2).SelectMany(f =>
            {
                var (train, judge) = ModelBench.Fold(set, 2, f);
                return Errors([train], judge);
            }));
        }

        return 0;
    }

    // Two charts of two days: a profile of the mean of both, and one of the day that is judged.
    private static void Days(string light, MeasurementSet a, MeasurementSet c1)
    {
        List<double> mean = [], ofDay = [];
        for (var f = 0; f < 10; f++)
        {
            var ((trainA, judgeA), (trainC, judgeC)) = (ModelBench.Fold(a, 10, f), ModelBench.Fold(c1, 10, f));
            var model = PrinterModels.Fit([trainA, trainC]);
            mean.AddRange(Errors(Made(model), judgeA, judgeC));
            ofDay.AddRange([.. Errors(Made(model.OnDayOf(0)), judgeA), .. Errors(Made(model.OnDayOf(1)), judgeC)]);
        }

        Show($"A and C1, tenfold, a profile of the mean of the days, {light}", mean);
        Show($"A and C1, tenfold, a profile of the day that is judged, {light}", ofDay);
    }

    private static IEnumerable<double> Errors(MeasurementSet[] from, params MeasurementSet[] judge) => Errors(Made(PrinterModels.Fit(from)), judge);

    private static IEnumerable<double> Errors(byte[] profile, params MeasurementSet[] judge)
    {
        var patches = judge.SelectMany(j => j.Averaged()).ToArray();
        var seen = Lcms.ToLab([.. patches.SelectMany(p => p.Device)], profile, RenderingIntent.AbsoluteColorimetric);
        return patches.Select((p, i) => CieDe2000.Between(p.Lab, new(seen[3 * i], seen[(3 * i) + 1], seen[(3 * i) + 2])).Value);
    }

    private static void Greys(string name, MeasurementSet set)
    {
        var away = ModelBench.GreyHalves(set).SelectMany(half =>
        {
            var seen = Lcms.ToLab([.. half.Judge.SelectMany(p => p.Device)], Made(PrinterModels.Fit([half.Train])), RenderingIntent.AbsoluteColorimetric);
            return half.Judge.Select((p, i) => double.Hypot(p.Lab.A - seen[(3 * i) + 1], p.Lab.B - seen[(3 * i) + 2]));
        }).ToArray();
        Console.WriteLine($"| {name} | {away.Average():0.000} / - / {away.Max():0.0} |");
    }

    private static void Seeds(string name, MeasurementSet set) => ModelBench.ShowSeeds(name, seed =>
    {
        var (train, judge) = ModelBench.Fold(set, 5, 0, seed);
        return Errors([train], judge);
    });

    private static byte[] Made(IPrinterModel model) =>
        ProfileMaker.Make(model, new() { Name = "bench", Created = DateTimeOffset.UnixEpoch.AddYears(50) }).File;

    private static void Show(string name, IEnumerable<double> errors) => ModelBench.Show(name, errors);
}

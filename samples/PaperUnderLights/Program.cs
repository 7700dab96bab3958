using Goodsheet.Colour.Difference;
using Goodsheet.Colour.Measurement;

// What a chart says of its paper, and what becomes of it under other lights: `dotnet run -c Release --project samples/PaperUnderLights -- CHART...`.
// One file may hold several M-conditions; give charts read with and without ultraviolet to see the brightener.
if (args.Length == 0)
{
    Console.Error.WriteLine("Give one or more measured charts with spectra.");
    return 1;
}

foreach (var file in args)
{
    var bytes = File.ReadAllBytes(file);
    var read = MeasurementFile.Read(bytes);
    if (read.Set is not { } first)
    {
        Console.Error.WriteLine($"{file}, line {read.Fault!.Line}: {read.Fault.Message}");
        return 2;
    }

    MCondition[] conditions = read.Conditions.IsEmpty ? [first.Condition] : [.. read.Conditions];
    foreach (var condition in conditions)
    {
        var chart = condition == first.Condition ? first : MeasurementFile.Read(bytes, wanted: condition).Set!;
        var paper = PaperReading.Of(chart);
        Console.WriteLine($"{file}, {condition}: white {paper.White.Lab}, D-max {paper.DMax:0.00}");
        foreach (var light in Enum.GetValues<ViewingLight>().Where(chart.Tells))
        {
            var seen = PaperReading.Of(chart.Under(light));
            Console.WriteLine($"  {light}: white {seen.White.Lab}, {CieDe2000.Between(paper.White.Lab, seen.White.Lab)} from as read");
        }
    }
}

return 0;

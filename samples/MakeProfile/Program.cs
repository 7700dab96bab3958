using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Printer;
using Goodsheet.Colour.Profiles;

// From a measured chart to a profile, and what it is worth: `dotnet run -c Release --project samples/MakeProfile -- CHART PROFILE`.
if (args is not [var from, var to])
{
    Console.Error.WriteLine("Give the measured chart and where to write the profile.");
    return 1;
}

var read = MeasurementFile.Read(File.ReadAllBytes(from));
if (read.Set is not { } chart)
{
    Console.Error.WriteLine($"{from}, line {read.Fault!.Line}: {read.Fault.Message}");
    return 2;
}

foreach (var misread in Misreads.Find([chart]))
{
    Console.WriteLine($"{string.Join(' ', misread.Patch.Device)} looks misread: {misread.Away} from what the others foretell.");
}

var model = PrinterModels.Fit([chart]);
var made = ProfileMaker.Make(model, new() { Name = Path.GetFileNameWithoutExtension(to), Created = TimeProvider.System.GetUtcNow() });
File.WriteAllBytes(to, made.File);

var worth = ProfileWorth.Judge(IccProfile.Read(made.File).Profile!, chart, PrinterModels.Foretold([chart]));
Console.WriteLine($"{worth.Verdict}. {worth.Advice}");
return 0;

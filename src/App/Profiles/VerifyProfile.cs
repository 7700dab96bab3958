using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Measurement;
using Goodsheet.Colour.Profiles;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Judges a profile, made here or elsewhere, against a measured chart.</summary>
public sealed class VerifyProfile
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public Task<Outcome<ProfileWorth>> RunAsync(Request request, CancellationToken cancel = default) =>
        JudgeAsync(request.Profile, Path.GetFileName(request.Profile), request.Chart, null, cancel);
#pragma warning restore CA1822

    /// <summary>Judges files, whatever they are called.</summary>
    internal static async Task<Outcome<ProfileWorth>> JudgeAsync(string path, string name, string chartPath, MCondition? condition, CancellationToken cancel)
    {
        var profile = await ReadAsync(path, name, cancel);
        if (!profile.Granted)
        {
            return profile.Refusal;
        }

        var chart = await ChartReading.ReadAsync(chartPath, cancel, condition);
        if (!chart.Granted)
        {
            return chart.Refusal;
        }

        try
        {
            return await Task.Run(() => ProfileWorth.Judge(profile.Value, chart.Value.Set!), cancel);
        }
        catch (ArgumentException e)
        {
            return new DoNotFit(e.Message);
        }
    }

    internal static async Task<Outcome<IccProfile>> ReadAsync(string path, string name, CancellationToken cancel)
    {
        var file = new FileInfo(path);
        if (!file.Exists)
        {
            return new NoSuchFile(path);
        }

        if (file.Length > IccLimits.FileBytes)
        {
            return new NotAProfile(name, IccLimits.FileBytes, "it is too long");
        }

        var read = IccProfile.Read(await File.ReadAllBytesAsync(file.FullName, cancel));
        return read.Profile is { } profile ? profile : new NotAProfile(name, read.Fault!.Offset, read.Fault.Message);
    }

    public sealed record Request(string Profile, string Chart);

    public sealed record NotAProfile(string Name, long Offset, string Why) : Refusal($"{Name} is no profile that can be read, at byte {Offset}: {Why}");

    public sealed record DoNotFit(string Why) : Refusal($"Profile and chart do not fit: {Why}");
}

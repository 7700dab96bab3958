using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Judges a profile, made here or elsewhere, against a measured chart.</summary>
public sealed class VerifyProfile
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public async Task<Outcome<ProfileWorth>> RunAsync(Request request, CancellationToken cancel = default)
    {
        var file = new FileInfo(request.Profile);
        if (!file.Exists)
        {
            return new NoSuchFile(request.Profile);
        }

        if (file.Length > IccLimits.FileBytes)
        {
            return new NotAProfile(file.Name, IccLimits.FileBytes, "it is too long");
        }

        var profile = IccProfile.Read(await File.ReadAllBytesAsync(file.FullName, cancel));
        if (profile.Profile is null)
        {
            return new NotAProfile(file.Name, profile.Fault!.Offset, profile.Fault.Message);
        }

        var chart = await ChartReading.ReadAsync(request.Chart, cancel);
        if (!chart.Granted)
        {
            return chart.Refusal;
        }

        try
        {
            return ProfileWorth.Judge(profile.Profile, chart.Value.Set!);
        }
        catch (ArgumentException e)
        {
            return new DoNotFit(e.Message);
        }
    }
#pragma warning restore CA1822

    public sealed record Request(string Profile, string Chart);

    public sealed record NotAProfile(string Name, long Offset, string Why) : Refusal($"{Name} is no profile that can be read, at byte {Offset}: {Why}");

    public sealed record DoNotFit(string Why) : Refusal($"Profile and chart do not fit: {Why}");
}

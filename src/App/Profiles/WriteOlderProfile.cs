using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Profiles;
using Goodsheet.Room;

namespace Goodsheet.App.Profiles;

/// <summary>Writes a profile that was made here once more, for programs that read no version 4.</summary>
public sealed class WriteOlderProfile
{
#pragma warning disable CA1822 // a use case is an instance, like every other
    public Task<Outcome<Done>> RunAsync(Request request, CancellationToken cancel = default) =>
        OfAsync(request.Profile, Path.GetFileNameWithoutExtension(request.Profile), cancel);
#pragma warning restore CA1822

    internal static async Task<Outcome<Done>> OfAsync(string path, string name, CancellationToken cancel)
    {
        var read = await VerifyProfile.ReadAsync(path, Path.GetFileName(path), cancel);
        if (!read.Granted)
        {
            return read.Refusal;
        }

        var older = await Task.Run(() => OlderVersion.Of(read.Value), cancel);
        return older is not null ? new Done($"{name}-older.icc", older) : WhyNot(read.Value);
    }

    internal static async Task<Outcome<TakeOlderProfile.Possible>> AskAsync(string path, CancellationToken cancel)
    {
        var read = await VerifyProfile.ReadAsync(path, Path.GetFileName(path), cancel);
        return !read.Granted ? read.Refusal : OlderVersion.CanBeOf(read.Value) ? new TakeOlderProfile.Possible() : WhyNot(read.Value);
    }

    private static Refusal WhyNot(IccProfile profile) => profile.Header.Major < 4 ? new IsOldAlready() : new NotOfOurs();

    public sealed record Request(string Profile);

    /// <param name="Name">What the file is to be called.</param>
    /// <param name="File">The profile in version 2.</param>
    public sealed record Done(string Name, byte[] File);

    public sealed record IsOldAlready() : Refusal("The file is of version 2 already: older programs read it as it is.");

    public sealed record NotOfOurs() : Refusal("There is no file of it for older programs: it is built otherwise than those made here. Ask whoever made it for one of version 2.");
}

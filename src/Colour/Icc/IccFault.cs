using System.Diagnostics.CodeAnalysis;

namespace Goodsheet.Colour.Icc;

/// <summary>Why a file cannot be used as a profile.</summary>
/// <param name="Offset">The byte at fault, counted from the start of the file.</param>
/// <param name="Message">What is wrong there, in one sentence.</param>
public sealed record IccFault(long Offset, string Message);

/// <summary>What came of reading a profile: the whole of it, or why not. A profile is never half read.</summary>
public sealed record IccReading
{
    internal IccReading(IccProfile profile) => Profile = profile;

    internal IccReading(IccFault fault) => Fault = fault;

    /// <summary>The profile, unless there is a fault.</summary>
    public IccProfile? Profile { get; }

    /// <summary>The fault, unless there is a profile.</summary>
    public IccFault? Fault { get; }

    /// <summary>Whether there is a profile.</summary>
    [MemberNotNullWhen(true, nameof(Profile))]
    [MemberNotNullWhen(false, nameof(Fault))]
    public bool Sound => Fault is null;
}

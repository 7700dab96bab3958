namespace Goodsheet.Room.People;

/// <summary>A code shown on the desk screen that pairs one phone, once, for a short time. The last one shown counts.</summary>
public sealed class PairingCode
{
    /// <summary>After so many wrong codes the right one is worth nothing either.</summary>
    public const int MostTries = 5;

    public required string CodeHash { get; init; }

    public required PersonName Person { get; init; }

    public required DateTimeOffset Until { get; init; }

    public int Tries { get; set; }

    public bool Used { get; set; }

    public bool IsGood(DateTimeOffset now) => !Used && Tries < MostTries && now < Until;
}

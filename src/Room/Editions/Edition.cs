using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Units;

namespace Goodsheet.Room.Editions;

/// <summary>Prints of one picture that are numbered and signed for: so many and no more, or open.</summary>
public sealed class Edition
{
    public required int Number { get; init; }

    public required string Title { get; init; }

    public required string Artist { get; init; }

    /// <summary>Of the picture.</summary>
    public required int Year { get; init; }

    /// <summary>How many numbered prints there will be; none for an open edition.</summary>
    public int? Limit { get; init; }

    public int ArtistsProofs { get; init; }

    public int PrintersProofs { get; init; }

    public int HorsCommerce { get; init; }

    /// <summary>True when prints of all sizes are numbered together; else each size counts for itself.</summary>
    public bool SizesTogether { get; init; } = true;

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    /// <summary>Raised with each print issued, so that two who issue at once meet here.</summary>
    public int Issued { get; set; }

    /// <summary>By custom artist's proofs are at most a tenth of the edition (common practice, no source).</summary>
    public bool HasManyProofs => Limit is { } limit && ArtistsProofs * 10 > limit;

    /// <summary>How many a series may have; none if there is no end to it.</summary>
    public int? Of(Series series) => series switch
    {
        Series.Numbered => Limit,
        Series.ArtistsProof => ArtistsProofs,
        Series.PrintersProof => PrintersProofs,
        Series.HorsCommerce => HorsCommerce,
        _ => throw new ArgumentOutOfRangeException(nameof(series)),
    };
}

/// <summary>Each series has numbers of its own.</summary>
public enum Series
{
    Numbered = 1,
    ArtistsProof = 2,
    PrintersProof = 3,

    /// <summary>Not for sale.</summary>
    HorsCommerce = 4,
}

/// <summary>A print under its number, as the register has it. Never taken out; a destroyed one may be replaced once, under the same number.</summary>
public sealed class NumberedPrint
{
    public required int Edition { get; init; }

    /// <summary>"380 × 253 mm" where each size counts for itself; empty where sizes count together.</summary>
    public required string Counted { get; init; }

    public required Series Series { get; init; }

    public required int Number { get; init; }

    /// <summary>0 for the print itself, 1 for the one that replaced it when it was destroyed, and so on.</summary>
    public required int Replacement { get; init; }

    /// <summary>The register's own short code, such as "0C7K-41PX-9TQE".</summary>
    public required string Code { get; init; }

    public required Length ImageWidth { get; init; }

    public required Length ImageHeight { get; init; }

    public required Length SheetWidth { get; init; }

    public required Length SheetHeight { get; init; }

    public required PaperCode Paper { get; init; }

    /// <summary>The paper's name on that day, as it stands on the certificate.</summary>
    public required string PaperName { get; init; }

    public required string Ink { get; init; }

    public required DateOnly PrintedOn { get; init; }

    public int? Run { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }

    /// <summary>The room's signature over the certificate's words, in base 64.</summary>
    public required string Signature { get; set; }

    public DateTimeOffset? DestroyedAt { get; set; }

    public PersonName? DestroyedBy { get; set; }

    public string DestroyedWhy { get; set; } = "";
}

/// <summary>The pair of keys the room signs its register with: made once, kept with the room's records.</summary>
public sealed class RegisterKey
{
    public required int Number { get; init; }

    public required DateTimeOffset MadeAt { get; init; }

    /// <summary>SubjectPublicKeyInfo, to be given to anybody who verifies.</summary>
    public required byte[] Public { get; init; }

    /// <summary>PKCS #8. It never leaves the room's records.</summary>
    public required byte[] Private { get; init; }
}

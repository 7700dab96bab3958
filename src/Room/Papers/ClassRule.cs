namespace Goodsheet.Room.Papers;

/// <summary>What the trade holds true of a class of paper. Common practice; the room edits it to its own.</summary>
public sealed class ClassRule
{
    public required PaperClass Class { get; init; }

    /// <summary>The coat papers of this class have; none where it differs from paper to paper (canvas).</summary>
    public Coat? Coat { get; set; }

    /// <summary>Pigment dulls and bronzes a high gloss: such work goes to a dye printer, or gets a coat.</summary>
    public bool PigmentBronzes { get; set; }

    /// <summary>Whether a warm base is fine; otherwise a clean white is wanted.</summary>
    public bool WarmBaseIsFine { get; set; }

    /// <summary>Whether dust is brushed off before feeding.</summary>
    public bool BrushBeforeFeeding { get; set; }

    /// <summary>A D-max under this is a sign of the wrong black or the wrong side.</summary>
    public double LeastDMax { get; set; }

    /// <summary>What it is good at, in a sentence.</summary>
    public string GoodAt { get; set; } = "";

    public string BadAt { get; set; } = "";

    /// <summary>How it is handled, one step a line.</summary>
    public string Handling { get; set; } = "";

    public Feed UsualFeed { get; set; }
}

namespace Goodsheet.Room.Shelf;

/// <summary>Whether a printer has ink for so much printing, channel by channel, by the room's own figure of ml a square metre.</summary>
/// <remarks>
/// What is in a printer is reckoned, not measured: a full piece when it was put in, less an even share of what was
/// printed since. A dark or one-coloured picture takes far more than an even share of one channel, so a channel counts
/// as safe only when it has <see cref="Darkest"/> shares, or a piece on the shelf.
/// </remarks>
public sealed record InkForRun(double Millilitres, IReadOnlyList<InkForRun.Channel> Channels)
{
    /// <summary>Shares of the ink of a run that one channel may take at most; common practice, no source.</summary>
    public const double Darkest = 3;

    public bool IsThere => Channels.All(c => c.Enough);

    /// <param name="millilitres">What the run takes, purging and all.</param>
    /// <param name="inks">The printer's inks as they stand.</param>
    /// <param name="printedSince">The ml that were printed on it from an instant on, over all channels.</param>
    /// <param name="today">What is past its date on this day is not counted as a spare.</param>
    public static InkForRun Of(double millilitres, IReadOnlyList<ConsumableStock> inks, Func<DateTimeOffset, double> printedSince, DateOnly today)
    {
        var share = inks.Count == 0 ? 0 : millilitres / inks.Count;
        return new(millilitres, [.. inks.OrderBy(i => i.Consumable.Channel, StringComparer.Ordinal).Select(ink =>
        {
            double? inPrinter = ink.InPrinter is var (_, since)
                ? Math.Max(0, ink.Consumable.Millilitres - (printedSince(since) / inks.Count)) : null;
            return new Channel(
                ink.Consumable.Code, ink.Consumable.Channel.Length > 0 ? ink.Consumable.Channel : ink.Consumable.Name,
                inPrinter, ink.InDate(today), share, inPrinter >= Darkest * share || ink.InDate(today) > 0);
        })]);
    }

    /// <param name="InPrinter">ml left in the printer as reckoned; none when no piece is known to be in it.</param>
    /// <param name="Spare">Pieces on the shelf that are in date.</param>
    /// <param name="Share">An even share of the run's ink, in ml.</param>
    public sealed record Channel(ConsumableCode Consumable, string Name, double? InPrinter, long Spare, double Share, bool Enough);
}

namespace Goodsheet.Room.Settings;

/// <summary>A way to write numbers. The words stay English, so that all of these name English months.</summary>
/// <param name="Culture">What the machine calls it.</param>
/// <param name="Example">One thousand two hundred and thirty-four and a half.</param>
public sealed record NumberForm(string Culture, string Example)
{
    public static IReadOnlyList<NumberForm> All { get; } = [new("en-GB", "1,234.5"), new("en-DE", "1.234,5"), new("en-FI", "1 234,5"), new("en-CH", "1’234.5")];
}

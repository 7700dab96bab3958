using System.Globalization;

namespace Goodsheet.App.Settings;

/// <summary>How this room writes numbers, whatever machine it runs on.</summary>
public sealed class RoomNumbers
{
    /// <summary>The machine's own until the room has said otherwise.</summary>
    public CultureInfo Culture { get; private set; } = CultureInfo.CurrentCulture;

    public void Take(string culture) => Culture = CultureInfo.GetCultureInfo(culture);
}

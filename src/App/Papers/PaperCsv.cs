using System.Globalization;
using System.Text;
using Goodsheet.Colour.Gamut;

namespace Goodsheet.App.Papers;

/// <summary>The numbers behind the plots of a paper page, one figure a line.</summary>
public static class PaperCsv
{
    public static string Of(AssessPaper.Done done)
    {
        var text = new StringBuilder("figure,at,value\r\n");
        Write(text, "", done);
        return text.ToString();
    }

    /// <summary>The same of several papers, the paper's name first.</summary>
    public static string Of(IReadOnlyList<(string Paper, AssessPaper.Done Done)> papers)
    {
        var text = new StringBuilder("paper,figure,at,value\r\n");
        foreach (var (paper, done) in papers)
        {
            Write(text, $"\"{paper.Replace("\"", "\"\"", StringComparison.Ordinal)}\",", done);
        }

        return text.ToString();
    }

    private static void Write(StringBuilder text, string before, AssessPaper.Done done)
    {
        void Line(string figure, string at, double? value)
        {
            if (value is { } v)
            {
                text.Append(CultureInfo.InvariantCulture, $"{before}{figure},{at},{Math.Round(v, 4)}\r\n");
            }
        }

        foreach (var f in done.Conditions)
        {
            Line("white L*", $"{f.Condition}", f.White?.L);
            Line("white a*", $"{f.Condition}", f.White?.A);
            Line("white b*", $"{f.Condition}", f.White?.B);
            Line("CIE whiteness D65 10 degrees", $"{f.Condition}", f.Whiteness);
            Line("CIE tint", $"{f.Condition}", f.Tint);
            Line("blue brightness %", $"{f.Condition}", f.Brightness);
        }

        Line("D-max", "", done.Figures.DMax);
        Line("gamut volume cubic dE*ab", "", done.Figures.Volume);
        Line("gamut volume give or take", "", done.Figures.VolumeGiveOrTake);
        Line("grain dE00", "", done.Figures.Grain);
        Line("opacity", "", done.Opacity);
        for (var i = 0; i < done.Figures.Greys.Length; i++)
        {
            var (grey, at) = (done.Figures.Greys[i], (100.0 * i / (done.Figures.Greys.Length - 1)).ToString("0", CultureInfo.InvariantCulture) + " %");
            Line("grey L*", at, grey.L);
            Line("grey a*", at, grey.A);
            Line("grey b*", at, grey.B);
        }

        if (done.Figures.Reach is { } reach)
        {
            for (var i = 0; i < GamutReach.Lightnesses.Length; i++)
            {
                for (var j = 0; j < GamutReach.Hues.Length; j++)
                {
                    Line("gamut reach C*", string.Create(CultureInfo.InvariantCulture, $"L* {GamutReach.Lightnesses[i]:0} h {GamutReach.Hues[j]:0}"), reach.Chroma[i][j]);
                }
            }
        }

        foreach (var (hours, moved) in done.Drying?.Readings ?? [])
        {
            Line("dry-down dE00", string.Create(CultureInfo.InvariantCulture, $"{hours:0.##} h"), moved.Value);
        }
    }
}

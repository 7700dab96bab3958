using System.Globalization;
using System.Text;

namespace Goodsheet.App.Profiles;

/// <summary>What a profile is worth as a table of text: every figure, and every point of the plots.</summary>
public static class WorthCsv
{
    /// <summary>One figure a line: what, on what, and up to three numbers.</summary>
    public static string Of(WorthRecord worth)
    {
        ArgumentNullException.ThrowIfNull(worth);
        var text = new StringBuilder("what,on,first,second,third\r\n");
        void Three(string what, string on, string form, params ReadOnlySpan<double> numbers)
        {
            text.Append(CultureInfo.InvariantCulture, $"{what},\"{on.Replace("\"", "\"\"", StringComparison.Ordinal)}\"");
            for (var i = 0; i < 3; i++)
            {
                text.Append(',').Append(i < numbers.Length ? numbers[i].ToString(form, CultureInfo.InvariantCulture) : "");
            }

            text.Append("\r\n");
        }

        foreach (var (on, f) in worth.Rows())
        {
            Three("dE00 mean p95 worst", on, "0.###", f.Mean, f.P95, f.Max);
        }

        foreach (var (on, _, lean) in worth.Leans())
        {
            Three("measured less foretold L* a* b*", on, "0.###", lean);
        }

        Three("L* a* b*", "paper", "0.##", worth.White);
        Three("L* a* b*", "black", "0.##", worth.Black);
        if (worth.Gamut is { } gamut)
        {
            Three("cubic dE*ab and give or take", "gamut", "0", gamut.Volume, gamut.Error);
        }

        foreach (var g in worth.Greys)
        {
            Three("L* a* b* of equal numbers", g[0].ToString("0.####", CultureInfo.InvariantCulture), "0.##", g[1], g[2], g[3]);
        }

        foreach (var ramp in worth.Ramps ?? [])
        {
            Three("bend and turn back L*", ramp.Name, "0.###", ramp.Bend, ramp.TurnsBack);
            foreach (var s in ramp.Steps)
            {
                Three($"L* a* b* of {ramp.Name}", s[0].ToString("0.####", CultureInfo.InvariantCulture), "0.##", s[1], s[2], s[3]);
            }
        }

        for (var i = 0; i < worth.Histogram.Count; i++)
        {
            Three("patches off by dE00 from", (i * WorthRecord.BarWidth).ToString("0.##", CultureInfo.InvariantCulture), "0", worth.Histogram[i]);
        }

        foreach (var p in worth.Worst)
        {
            Three("worst patch dE00", p.Id, "0.##", p.Error);
            Three("worst patch measured L* a* b*", p.Id, "0.##", p.Measured);
            Three("worst patch foretold L* a* b*", p.Id, "0.##", p.Foretold);
        }

        return text.ToString();
    }

    /// <summary>The outlines of a gamut's slices, one piece a line, and its solid, one corner of a triangle a line.</summary>
    public static string Of(ShowGamut.Shape shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        var text = new StringBuilder("what,number,L*,a*,b*,a* to,b* to\r\n");
        foreach (var slice in shape.Slices)
        {
            for (var i = 0; i < slice.Pieces.Count; i++)
            {
                var p = slice.Pieces[i];
                text.Append(CultureInfo.InvariantCulture, $"slice,{i + 1},{slice.Lightness},{p[0]:0.##},{p[1]:0.##},{p[2]:0.##},{p[3]:0.##}\r\n");
            }
        }

        for (var i = 0; i < shape.Triangles.Count; i++)
        {
            foreach (var corner in shape.Triangles[i].Take(9).Chunk(3))
            {
                text.Append(CultureInfo.InvariantCulture, $"triangle,{i + 1},{corner[0]:0.#},{corner[1]:0.#},{corner[2]:0.#},,\r\n");
            }
        }

        return text.ToString();
    }
}
